-- What the report is counted from: each case once, in as few and as small columns as the figures need.
-- day: decided, last seen or cut off, from the first active fitting; attended: when one that was
-- discontinued was last seen; only where the fitting is dated and before the cut-off.
-- ..._class holds two counts, the first below 2^31, the second above.
-- Need of treatment: grades 4 and 5, and 3 with an aesthetic component of 6 and more.
-- present: bits of fields that are there and have no column here of their own.
SELECT appliance, age_band, growth, year_started, clinic, standing, long_enough, age_months, sex,
  CASE WHEN standing = 1 AND treatment_days <= days_to_cut_off THEN 1 ELSE 0 END AS completed,
  CASE WHEN days_to_cut_off >= 0 THEN CASE standing WHEN 0 THEN days_to_cut_off WHEN 3 THEN last_attended_days WHEN 4 THEN NULL ELSE treatment_days END END AS day,
  CASE WHEN standing = 2 AND treatment_days >= 0 AND days_to_cut_off >= 0 THEN coalesce(last_attended_days, treatment_days) END AS attended,
  uk_before, uk_after, us_before, us_after, icon_before, icon_after,
  start_overjet, end_overjet, start_overbite, end_overbite, wear_reported, wear_measured, harms,
  CASE WHEN uk_before - uk_after >= 22 AND 10 * uk_after <= 7 * uk_before THEN 2147483648 WHEN 10 * uk_after > 7 * uk_before AND uk_before > 0 THEN 1 ELSE 0 END AS uk_class,
  CASE WHEN us_before - us_after >= 22 AND 10 * us_after <= 7 * us_before THEN 2147483648 WHEN 10 * us_after > 7 * us_before AND us_before > 0 THEN 1 ELSE 0 END AS us_class,
  CASE WHEN icon_before - 4 * icon_after > -1 THEN 1 WHEN icon_before - 4 * icon_after >= -25 THEN 2147483648 ELSE 0 END AS icon_high_class,
  CASE WHEN icon_before - 4 * icon_after > -26 THEN 0 WHEN icon_before - 4 * icon_after >= -53 THEN 1 WHEN icon_before - 4 * icon_after >= -85 THEN 2147483648 ELSE 0 END AS icon_low_class,
  CASE WHEN dhc_after < dhc_before THEN 1 WHEN dhc_after > dhc_before THEN 2147483648 WHEN dhc_after = dhc_before THEN 0 END AS dhc_class,
  CAST(CASE dhc_before WHEN 3 THEN start_aesthetic ELSE dhc_before * 3 - 4 END >= 6 AS BIGINT)
    + 2147483648 * CAST(CASE dhc_after WHEN 3 THEN end_aesthetic ELSE dhc_after * 3 - 4 END >= 6 AS BIGINT) AS need_class,
  least(breakages, 1) + 2147483648 * CAST(breakages AS BIGINT) AS broke_class,
  CAST(treatment_days IS NOT NULL AS INT) + 2 * CAST(last_attended_days IS NOT NULL AS INT)
    + 4 * CAST(active_days IS NOT NULL AS INT) + 8 * CAST(retention_days IS NOT NULL AS INT)
    + 16 * CAST(dhc_before IS NOT NULL AS INT) + 32 * CAST(dhc_after IS NOT NULL AS INT)
    + 64 * CAST(start_aesthetic IS NOT NULL AS INT) + 128 * CAST(end_aesthetic IS NOT NULL AS INT) AS present
FROM scored
