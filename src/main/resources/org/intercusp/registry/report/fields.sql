-- How many cases have each field, by which of the other fields they have.
SELECT present, count(*) AS n, count(nullif(standing, 4)) AS stood, count(nullif(year_started, 0)) AS fitted,
  count(nullif(growth, 0)) AS grown, count(age_months) AS aged,
  count(start_overjet) AS oj_b, count(end_overjet) AS oj_a,
  count(start_overbite) AS ob_b, count(end_overbite) AS ob_a,
  count(uk_before) AS uk_b, count(uk_after) AS uk_a,
  count(icon_before) AS icon_b, count(icon_after) AS icon_a,
  count(wear_reported) AS reported, count(wear_measured) AS measured,
  count(CASE WHEN uk_before = 0 THEN uk_after END) AS uk_zero,
  count(CASE WHEN us_before = 0 THEN us_after END) AS us_zero
FROM courses
GROUP BY present
