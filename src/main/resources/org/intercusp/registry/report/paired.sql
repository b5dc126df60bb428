-- Scores of cases that have both, so that every sum speaks of the same cases: nothing times 0 is nothing.
-- A PAR of 0 before has no percentage and is left out.
SELECT *, 1 - uk_a / CAST(uk_b AS DOUBLE) AS uk_share, 1 - us_a / CAST(us_b AS DOUBLE) AS us_share
FROM (
  SELECT *,
    nullif(uk_before, 0) + 0 * uk_after AS uk_b,
    uk_after + 0 * nullif(uk_before, 0) AS uk_a,
    nullif(us_before, 0) + 0 * us_after AS us_b,
    us_after + 0 * nullif(us_before, 0) AS us_a,
    icon_before + 0 * icon_after AS icon_b,
    icon_after + 0 * icon_before AS icon_a,
    start_overjet + 0 * end_overjet AS oj_b,
    end_overjet + 0 * start_overjet AS oj_a,
    start_overbite + 0 * end_overbite AS ob_b,
    end_overbite + 0 * start_overbite AS ob_a
  FROM courses
) AS pairs
