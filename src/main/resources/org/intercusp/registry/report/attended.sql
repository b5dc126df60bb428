-- When the discontinued were last seen, in days from the first active fitting; only those whose decision is dated too.
SELECT standing, long_enough, attended AS day, count(*) AS cases
FROM courses
WHERE attended IS NOT NULL
GROUP BY standing, long_enough, attended
