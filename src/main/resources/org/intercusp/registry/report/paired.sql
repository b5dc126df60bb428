-- Scores of cases that have both, so that every sum below speaks of the same cases.
SELECT *,
  CASE WHEN uk_before > 0 AND uk_after >= 0 THEN uk_before END AS uk_b,
  CASE WHEN uk_before > 0 THEN uk_after END AS uk_a,
  CASE WHEN us_before > 0 AND us_after >= 0 THEN us_before END AS us_b,
  CASE WHEN us_before > 0 THEN us_after END AS us_a,
  CASE WHEN icon_before IS NOT NULL AND icon_after IS NOT NULL THEN icon_before END AS icon_b,
  CASE WHEN icon_before IS NOT NULL AND icon_after IS NOT NULL THEN icon_after END AS icon_a,
  CASE WHEN dhc_before IS NOT NULL AND dhc_after IS NOT NULL THEN dhc_before END AS dhc_b,
  CASE WHEN dhc_before IS NOT NULL AND dhc_after IS NOT NULL THEN dhc_after END AS dhc_a,
  CASE WHEN start_overjet IS NOT NULL AND end_overjet IS NOT NULL THEN start_overjet END AS oj_b,
  CASE WHEN start_overjet IS NOT NULL AND end_overjet IS NOT NULL THEN end_overjet END AS oj_a,
  CASE WHEN start_overbite IS NOT NULL AND end_overbite IS NOT NULL THEN start_overbite END AS ob_b,
  CASE WHEN start_overbite IS NOT NULL AND end_overbite IS NOT NULL THEN end_overbite END AS ob_a,
  CASE WHEN uk_before > 0 THEN 100.0 * (uk_before - uk_after) / CAST(uk_before AS DOUBLE) END AS uk_percent,
  CASE WHEN us_before > 0 THEN 100.0 * (us_before - us_after) / CAST(us_before AS DOUBLE) END AS us_percent,
  CASE WHEN dhc_before >= 4 THEN TRUE WHEN dhc_before < 3 THEN FALSE ELSE start_aesthetic >= 6 END AS needed,
  CASE WHEN dhc_after >= 4 THEN TRUE WHEN dhc_after < 3 THEN FALSE ELSE end_aesthetic >= 6 END AS needed_still
FROM counted
