-- Each case once, with the groups it belongs to and its weighted scores.
-- standing: 0 going on, 1 completed, 2 discontinued, 3 transferred, 4 unknown.
-- age_band: under 10, 10-11, 12-13, 14-15, 16 and over, in years.
-- calendar: month, month_index, days_to_cut_off (from the 15th; below 0 after the cut-off); asked: cut_off_index.
SELECT c.*,
  CASE
    WHEN c.age_months < 120 THEN 0
    WHEN c.age_months < 144 THEN 1
    WHEN c.age_months < 168 THEN 2
    WHEN c.age_months < 192 THEN 3
    ELSE 4
  END AS age_band,
  coalesce(c.growth_stage, 'not recorded') AS growth,
  coalesce(c.start_year, 0) AS year_started,
  k.days_to_cut_off AS days_to_cut_off,
  CASE WHEN k.month_index + 24 <= a.cut_off_index THEN 1 ELSE 0 END AS long_enough,
  CASE
    WHEN c.status = 'in-treatment' THEN 0
    WHEN c.treatment_days > k.days_to_cut_off THEN 0
    WHEN c.status = 'completed' THEN 1
    WHEN c.status = 'transferred' THEN 3
    WHEN c.status IN ('patient-stopped', 'lost-to-follow-up', 'discontinued-by-clinician') THEN 2
    ELSE 4
  END AS standing,
  CASE WHEN c.status = 'completed' AND c.treatment_days <= k.days_to_cut_off THEN 1 ELSE 0 END AS completed,
  c.start_par_ua + c.start_par_la + c.start_par_br + c.start_par_bl + 6 * c.start_par_oj
    + 2 * c.start_par_ob + 4 * c.start_par_cl AS uk_before,
  c.end_par_ua + c.end_par_la + c.end_par_br + c.end_par_bl + 6 * c.end_par_oj
    + 2 * c.end_par_ob + 4 * c.end_par_cl AS uk_after,
  c.start_par_ua + 2 * c.start_par_br + 2 * c.start_par_bl + 5 * c.start_par_oj
    + 3 * c.start_par_ob + 3 * c.start_par_cl AS us_before,
  c.end_par_ua + 2 * c.end_par_br + 2 * c.end_par_bl + 5 * c.end_par_oj
    + 3 * c.end_par_ob + 3 * c.end_par_cl AS us_after,
  7 * c.start_icon_ae + 5 * c.start_icon_cs + 5 * c.start_icon_cb + 4 * c.start_icon_v
    + 3 * c.start_icon_br + 3 * c.start_icon_bl AS icon_before,
  7 * c.end_icon_ae + 5 * c.end_icon_cs + 5 * c.end_icon_cb + 4 * c.end_icon_v
    + 3 * c.end_icon_br + 3 * c.end_icon_bl AS icon_after,
  CAST(substr(c.start_dhc, 1, 1) AS INT) AS dhc_before,
  CAST(substr(c.end_dhc, 1, 1) AS INT) AS dhc_after
FROM cases c
  CROSS JOIN asked a
  LEFT JOIN calendar k ON k.month = c.first_fitted_month
  LEFT JOIN dropped d ON d.sequence = c.sequence
WHERE d.sequence IS NULL
