-- Each case once, in numbers: its groups, where it stands, and its weighted scores.
-- standing: 0 going on, 1 completed, 2 discontinued, 3 transferred, 4 unknown.
-- age_band: under 10, 10-11, 12-13, 14-15, 16 and over, in years.
-- sex: 0 female, 1 male, 2 other or unknown.
-- calendar: month, month_index, days_to_cut_off (from the 15th; below 0 after the cut-off); asked: cut_off_index.
SELECT
  coalesce(a.number, 0) AS appliance,
  CASE
    WHEN c.age_months < 120 THEN 0
    WHEN c.age_months < 144 THEN 1
    WHEN c.age_months < 168 THEN 2
    WHEN c.age_months < 192 THEN 3
    ELSE 4
  END AS age_band,
  coalesce(g.number, 0) AS growth,
  coalesce(c.start_year, 0) AS year_started,
  coalesce(l.number, 0) AS clinic,
  CASE
    WHEN c.status = 'in-treatment' THEN 0
    WHEN c.treatment_days > k.days_to_cut_off THEN 0
    WHEN c.status = 'completed' THEN 1
    WHEN c.status = 'transferred' THEN 3
    WHEN c.status IN ('patient-stopped', 'lost-to-follow-up', 'discontinued-by-clinician') THEN 2
    ELSE 4
  END AS standing,
  CASE WHEN k.month_index + 24 <= q.cut_off_index THEN 1 ELSE 0 END AS long_enough,
  k.days_to_cut_off,
  c.treatment_days,
  c.last_attended_days,
  c.age_months,
  CASE c.sex WHEN 'female' THEN 0 WHEN 'male' THEN 1 ELSE 2 END AS sex,
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
  ascii(c.start_dhc) - 48 AS dhc_before,
  ascii(c.end_dhc) - 48 AS dhc_after,
  c.start_aesthetic,
  c.end_aesthetic,
  c.start_overjet,
  c.end_overjet,
  c.start_overbite,
  c.end_overbite,
  c.wear_reported,
  c.wear_measured,
  c.breakages,
  c.active_days,
  c.retention_days,
  CASE WHEN c.ae_caries + c.ae_white_spot + c.ae_gingivitis + c.ae_ulcer + c.ae_allergy + c.ae_joint
    + c.ae_incisor_trauma + c.ae_root_resorption + c.ae_fragment_swallowed + c.ae_fragment_inhaled
    + c.ae_other + c.ae_serious > 0 THEN
    least(c.ae_caries, 1) + 2 * least(c.ae_white_spot, 1) + 4 * least(c.ae_gingivitis, 1)
    + 8 * least(c.ae_ulcer, 1) + 16 * least(c.ae_allergy, 1) + 32 * least(c.ae_joint, 1)
    + 64 * least(c.ae_incisor_trauma, 1) + 128 * least(c.ae_root_resorption, 1)
    + 256 * least(c.ae_fragment_swallowed, 1) + 512 * least(c.ae_fragment_inhaled, 1)
    + 1024 * least(c.ae_other, 1) + 2048 * least(c.ae_serious, 1)
    ELSE 0 END AS harms
FROM counted c
  CROSS JOIN asked q
  LEFT JOIN calendar k ON k.month = c.first_fitted_month
  LEFT JOIN appliances a ON a.member = c.appliance
  LEFT JOIN growths g ON g.member = c.growth_stage
  LEFT JOIN clinics l ON l.member = c.clinic
