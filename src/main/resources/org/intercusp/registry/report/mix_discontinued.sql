-- What a case brought with it and whether it was discontinued, among ends that are known.
SELECT c.clinic, c.age_months, c.uk_before AS par,
  CASE WHEN c.sex = 1 THEN 1 ELSE 0 END AS male,
  CASE WHEN c.sex = 2 THEN 1 ELSE 0 END AS sex_other,
  CASE WHEN g.member IN ('CS1', 'CS2') THEN 1 ELSE 0 END AS before_peak,
  CASE WHEN g.member IN ('CS5', 'CS6') THEN 1 ELSE 0 END AS after_peak,
  CASE WHEN c.growth = 0 THEN 1 ELSE 0 END AS growth_missing,
  CASE WHEN c.standing = 2 THEN 1 ELSE 0 END AS happened
FROM courses c LEFT JOIN growths g ON g.number = c.growth
WHERE c.long_enough = 1 AND c.standing IN (1, 2) AND c.uk_before IS NOT NULL AND c.age_months IS NOT NULL
