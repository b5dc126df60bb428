-- Rows that do not count, and why: the same text for every engine.
-- cases: one row a current submission; identity: whom and what each is about.
-- What begins after the cut-off is none of the person's treatments yet. A transferred case is followed where
-- another clinic's record is fitted no earlier: whose record came first says nothing, and of two that were
-- transferred, or where a fitting is not dated, the one accepted later goes on.
WITH repeated AS (
  SELECT who FROM identity GROUP BY who HAVING count(*) > 1
),
several AS (
  SELECT i.who, i.course, i.sequence, c.submitter, c.clinic, c.status, c.first_fitted_month
  FROM identity i JOIN repeated r ON r.who = i.who JOIN cases c ON c.sequence = i.sequence
),
placed AS (
  SELECT s.*,
    row_number() OVER (PARTITION BY who, course ORDER BY sequence DESC) AS place,
    first_value(submitter) OVER (PARTITION BY who, course ORDER BY sequence DESC) AS kept_submitter
  FROM several s
),
firsts AS (
  SELECT p.*
  FROM placed p LEFT JOIN calendar k ON k.month = p.first_fitted_month
  WHERE p.place = 1 AND coalesce(k.days_to_cut_off, 0) >= 0
),
moved AS (
  SELECT DISTINCT f.sequence
  FROM firsts f JOIN firsts later
    ON later.who = f.who AND later.clinic <> f.clinic
  WHERE f.status = 'transferred' AND CASE
    WHEN later.status <> 'transferred' AND later.first_fitted_month IS NOT NULL AND f.first_fitted_month IS NOT NULL
      THEN later.first_fitted_month >= f.first_fitted_month
    ELSE later.sequence > f.sequence
  END
),
staying AS (
  SELECT f.sequence, f.first_fitted_month,
    row_number() OVER (PARTITION BY f.who, f.first_fitted_month ORDER BY f.sequence DESC) AS again
  FROM firsts f LEFT JOIN moved m ON m.sequence = f.sequence
  WHERE m.sequence IS NULL
)
SELECT sequence, 'corrected' AS why FROM placed WHERE place > 1 AND submitter = kept_submitter
UNION ALL
SELECT sequence, 'second-submitter' AS why FROM placed WHERE place > 1 AND submitter <> kept_submitter
UNION ALL
SELECT sequence, 'transferred-on' AS why FROM moved
UNION ALL
SELECT sequence, 'same-fitting' AS why FROM staying WHERE again > 1 AND first_fitted_month IS NOT NULL
UNION ALL
SELECT c.sequence, 'not-begun' AS why
FROM calendar k
  JOIN cases c ON c.first_fitted_month = k.month
  LEFT JOIN placed p ON p.sequence = c.sequence
WHERE k.days_to_cut_off < 0 AND coalesce(p.place, 1) = 1
