-- Cases that brought the same with them, in a fixed order.
SELECT age_months, par, male, sex_other, before_peak, after_peak, growth_missing,
  CAST(sum(happened) AS BIGINT) AS happened, count(*) AS cases
FROM mixed
GROUP BY age_months, par, male, sex_other, before_peak, after_peak, growth_missing
ORDER BY age_months, par, male, sex_other, before_peak, after_peak, growth_missing
