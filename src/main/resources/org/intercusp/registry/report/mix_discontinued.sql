-- What a case brought with it and whether it was discontinued, among ends that are known.
SELECT clinic, age_months, uk_before AS par,
  CASE WHEN sex = 'male' THEN 1 ELSE 0 END AS male,
  CASE WHEN sex IN ('male', 'female') THEN 0 ELSE 1 END AS sex_other,
  CASE WHEN growth IN ('CS1', 'CS2') THEN 1 ELSE 0 END AS before_peak,
  CASE WHEN growth IN ('CS5', 'CS6') THEN 1 ELSE 0 END AS after_peak,
  CASE WHEN growth = 'not recorded' THEN 1 ELSE 0 END AS growth_missing,
  CASE WHEN standing = 2 THEN 1 ELSE 0 END AS happened
FROM counted
WHERE long_enough = 1 AND standing IN (1, 2) AND uk_before IS NOT NULL AND age_months IS NOT NULL
