-- The same by group, by the week.
SELECT {group} AS member, standing, long_enough, CAST(floor(attended / 7) AS INT) AS week, count(*) AS cases
FROM courses
WHERE attended IS NOT NULL
GROUP BY {group}, standing, long_enough, CAST(floor(attended / 7) AS INT)
