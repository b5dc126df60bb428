-- What a case brought with it and whether it improved greatly, among those of 22 points and more.
SELECT clinic, age_months, uk_b AS par,
  CASE WHEN sex = 'male' THEN 1 ELSE 0 END AS male,
  CASE WHEN sex IN ('male', 'female') THEN 0 ELSE 1 END AS sex_other,
  CASE WHEN growth IN ('CS1', 'CS2') THEN 1 ELSE 0 END AS before_peak,
  CASE WHEN growth IN ('CS5', 'CS6') THEN 1 ELSE 0 END AS after_peak,
  CASE WHEN growth = 'not recorded' THEN 1 ELSE 0 END AS growth_missing,
  CASE WHEN uk_b - uk_a >= 22 AND 10 * (uk_b - uk_a) >= 3 * uk_b THEN 1 ELSE 0 END AS happened
FROM paired
WHERE uk_b >= 22 AND age_months IS NOT NULL
