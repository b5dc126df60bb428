-- When the discontinued were last seen, in days from the first active fitting; only those whose decision is dated too.
-- All cases by the day, groups by the week; a column is absent where the row adds it up.
SELECT appliance, age_band, growth, year_started, clinic, standing, long_enough, t, week, count(*) AS cases
FROM (
  SELECT appliance, age_band, growth, year_started, clinic, standing, long_enough, t, CAST(floor(t / 7) AS INT) AS week
  FROM (
    SELECT appliance, age_band, growth, year_started, clinic, standing, long_enough,
      coalesce(last_attended_days, treatment_days) AS t
    FROM counted
    WHERE standing = 2 AND treatment_days >= 0 AND days_to_cut_off >= 0
  ) dated
) timed
GROUP BY GROUPING SETS (
  (standing, long_enough, t),
  (appliance, age_band, standing, long_enough, week),
  (growth, year_started, standing, long_enough, week),
  (clinic, standing, long_enough, week)
)
