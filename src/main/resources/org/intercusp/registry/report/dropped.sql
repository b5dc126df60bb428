-- Rows that do not count, and why: the same text for every engine.
-- cases: one row a current submission.
-- The start of a pseudonym finds who may be there twice; what follows compares the whole.
WITH repeated AS (
  SELECT substr(person, 1, 12) AS start FROM cases GROUP BY substr(person, 1, 12) HAVING count(*) > 1
),
several AS (
  SELECT c.person, c.treatment, c.submitter, c.clinic, c.status, c.first_fitted_month, c.sequence
  FROM cases c JOIN repeated r ON substr(c.person, 1, 12) = r.start
),
placed AS (
  SELECT s.*,
    row_number() OVER (PARTITION BY person, treatment ORDER BY sequence DESC) AS place,
    first_value(submitter) OVER (PARTITION BY person, treatment ORDER BY sequence DESC) AS kept_submitter
  FROM several s
),
firsts AS (
  SELECT * FROM placed WHERE place = 1
),
moved AS (
  SELECT DISTINCT f.sequence
  FROM firsts f JOIN firsts later
    ON later.person = f.person AND later.clinic <> f.clinic AND later.sequence > f.sequence
  WHERE f.status = 'transferred'
),
staying AS (
  SELECT f.sequence, f.first_fitted_month,
    row_number() OVER (PARTITION BY f.person, f.first_fitted_month ORDER BY f.sequence DESC) AS again
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
