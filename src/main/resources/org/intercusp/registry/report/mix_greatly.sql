-- What a case brought with it and whether it improved greatly, among those of 22 points and more.
SELECT c.clinic, c.age_months, c.uk_b AS par,
  CASE WHEN c.sex = 1 THEN 1 ELSE 0 END AS male,
  CASE WHEN c.sex = 2 THEN 1 ELSE 0 END AS sex_other,
  CASE WHEN g.member IN ('CS1', 'CS2') THEN 1 ELSE 0 END AS before_peak,
  CASE WHEN g.member IN ('CS5', 'CS6') THEN 1 ELSE 0 END AS after_peak,
  CASE WHEN c.growth = 0 THEN 1 ELSE 0 END AS growth_missing,
  CASE WHEN c.uk_b - c.uk_a >= 22 AND 10 * (c.uk_b - c.uk_a) >= 3 * c.uk_b THEN 1 ELSE 0 END AS happened
FROM paired c LEFT JOIN growths g ON g.number = c.growth
WHERE c.uk_b >= 22 AND c.age_months IS NOT NULL
