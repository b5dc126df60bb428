-- When each case was decided, last seen or cut off, in days from the first active fitting.
-- All cases by the day, groups by the week; a column is absent where the row adds it up.
SELECT appliance, age_band, growth, year_started, clinic, standing, long_enough, t, week, count(*) AS cases
FROM (
  SELECT appliance, age_band, growth, year_started, clinic, standing, long_enough, t, CAST(floor(t / 7) AS INT) AS week
  FROM (
    SELECT appliance, age_band, growth, year_started, clinic, standing, long_enough,
      CASE WHEN days_to_cut_off >= 0 THEN CASE standing WHEN 0 THEN days_to_cut_off WHEN 3 THEN last_attended_days WHEN 4 THEN NULL ELSE treatment_days END END AS t
    FROM counted
  ) dated
) timed
GROUP BY GROUPING SETS (
  (standing, long_enough, t),
  (appliance, age_band, standing, long_enough, week),
  (growth, year_started, standing, long_enough, week),
  (clinic, standing, long_enough, week)
)
