-- Rows that do not count, and why: the same text for every engine.
-- cases: one row a current submission; identity: whom and what each is about.
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
  SELECT * FROM placed WHERE place = 1
),
moved AS (
  SELECT DISTINCT f.sequence
  FROM firsts f JOIN firsts later
    ON later.who = f.who AND later.clinic <> f.clinic AND later.sequence > f.sequence
  WHERE f.status = 'transferred'
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
