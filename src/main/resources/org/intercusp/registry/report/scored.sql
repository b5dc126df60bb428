-- The weighted scores of each row, and what follows from them alone: worked out before anything is
-- joined, where the engine has the columns as they lie in the file.
-- ..._class holds two counts, the first below 2^31, the second above.
-- ..._short: above 0 where the change is less than 30 %. Worked out beside a CASE, since within one it would be again.
-- Need of treatment: grades 4 and 5, and 3 with an aesthetic component of 6 and more.
-- present: bits of fields that are there and have no column here of their own.
-- ended: as the clinic said, by the numbers of where a case stands.
-- {start}, {end}: empty where no assessment lies after the cut-off, else what is added to make those that do
-- nothing, since they are not known at it.
SELECT sequence, appliance, growth_stage, clinic, first_fitted_month, age_months,
  coalesce(start_year, 0) AS year_started,
  CASE
    WHEN age_months < 120 THEN 0
    WHEN age_months < 144 THEN 1
    WHEN age_months < 168 THEN 2
    WHEN age_months < 192 THEN 3
    WHEN age_months >= 192 THEN 4
    ELSE 5
  END AS age_band,
  CASE sex WHEN 'female' THEN 0 WHEN 'male' THEN 1 ELSE 2 END AS sex,
  CASE
    WHEN status = 'in-treatment' THEN 0
    WHEN status = 'completed' THEN 1
    WHEN status = 'transferred' THEN 3
    WHEN status IN ('patient-stopped', 'lost-to-follow-up', 'discontinued-by-clinician') THEN 2
    ELSE 4
  END AS ended,
  treatment_days, last_attended_days, uk_before, uk_after, us_before, us_after, icon_before, icon_after,
  overjet_before AS start_overjet, overjet_after AS end_overjet, overbite_before AS start_overbite, overbite_after AS end_overbite,
  wear_reported, wear_measured, harms,
  CASE WHEN uk_short > 0 THEN CAST(uk_before > 0 AS BIGINT) WHEN uk_change >= 22 THEN 2147483648 ELSE 0 END AS uk_class,
  CASE WHEN us_short > 0 THEN CAST(us_before > 0 AS BIGINT) WHEN us_change >= 22 THEN 2147483648 ELSE 0 END AS us_class,
  CASE WHEN icon_change > -1 THEN 1 WHEN icon_change >= -25 THEN 2147483648 ELSE 0 END AS icon_high_class,
  CASE WHEN icon_change > -26 THEN 0 WHEN icon_change >= -53 THEN 1 WHEN icon_change >= -85 THEN 2147483648 ELSE 0 END AS icon_low_class,
  CASE WHEN dhc_after < dhc_before THEN 1 WHEN dhc_after > dhc_before THEN 2147483648 WHEN dhc_after = dhc_before THEN 0 END AS dhc_class,
  CAST(CASE dhc_before WHEN 3 THEN aesthetic_before ELSE dhc_before * 3 - 4 END >= 6 AS BIGINT)
    + 2147483648 * CAST(CASE dhc_after WHEN 3 THEN aesthetic_after ELSE dhc_after * 3 - 4 END >= 6 AS BIGINT) AS need_class,
  least(breakages, 1) + 2147483648 * CAST(breakages AS BIGINT) AS broke_class,
  CAST(treatment_days IS NOT NULL AS INT) + 2 * CAST(last_attended_days IS NOT NULL AS INT)
    + 4 * CAST(active_days IS NOT NULL AS INT) + 8 * CAST(retention_days IS NOT NULL AS INT)
    + 16 * CAST(dhc_before IS NOT NULL AS INT) + 32 * CAST(dhc_after IS NOT NULL AS INT)
    + 64 * CAST(aesthetic_before IS NOT NULL AS INT) + 128 * CAST(aesthetic_after IS NOT NULL AS INT) AS present
FROM (
  SELECT *,
    uk_before - uk_after AS uk_change,
    10 * uk_after - 7 * uk_before AS uk_short,
    us_before - us_after AS us_change,
    10 * us_after - 7 * us_before AS us_short,
    icon_before - 4 * icon_after AS icon_change
  FROM (
    SELECT *,
      start_par_ua + start_par_la + (start_par_br + start_par_bl) + 6 * start_par_oj
        + 2 * start_par_ob + 4 * start_par_cl {start} AS uk_before,
      end_par_ua + end_par_la + (end_par_br + end_par_bl) + 6 * end_par_oj
        + 2 * end_par_ob + 4 * end_par_cl {end} AS uk_after,
      start_par_ua + 2 * (start_par_br + start_par_bl) + 5 * start_par_oj
        + 3 * start_par_ob + 3 * start_par_cl {start} AS us_before,
      end_par_ua + 2 * (end_par_br + end_par_bl) + 5 * end_par_oj
        + 3 * end_par_ob + 3 * end_par_cl {end} AS us_after,
      7 * start_icon_ae + 5 * (start_icon_cs + start_icon_cb) + 4 * start_icon_v
        + 3 * (start_icon_br + start_icon_bl) {start} AS icon_before,
      7 * end_icon_ae + 5 * (end_icon_cs + end_icon_cb) + 4 * end_icon_v
        + 3 * (end_icon_br + end_icon_bl) {end} AS icon_after,
      ascii(start_dhc) - 48 {start} AS dhc_before,
      ascii(end_dhc) - 48 {end} AS dhc_after,
      start_aesthetic {start} AS aesthetic_before,
      end_aesthetic {end} AS aesthetic_after,
      start_overjet {start} AS overjet_before,
      end_overjet {end} AS overjet_after,
      start_overbite {start} AS overbite_before,
      end_overbite {end} AS overbite_after,
      CASE WHEN ae_caries + ae_white_spot + ae_gingivitis + ae_ulcer + ae_allergy + ae_joint
        + ae_incisor_trauma + ae_root_resorption + ae_fragment_swallowed + ae_fragment_inhaled
        + ae_other + ae_serious > 0 THEN
        least(ae_caries, 1) + 2 * least(ae_white_spot, 1) + 4 * least(ae_gingivitis, 1)
        + 8 * least(ae_ulcer, 1) + 16 * least(ae_allergy, 1) + 32 * least(ae_joint, 1)
        + 64 * least(ae_incisor_trauma, 1) + 128 * least(ae_root_resorption, 1)
        + 256 * least(ae_fragment_swallowed, 1) + 512 * least(ae_fragment_inhaled, 1)
        + 1024 * least(ae_other, 1) + 2048 * least(ae_serious, 1)
        ELSE 0 END AS harms
    FROM cases
  ) AS weighted
) AS changed
