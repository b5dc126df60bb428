-- The same by group, by the week.
SELECT {group} AS member, standing, long_enough, CAST(floor(day / 7) AS INT) AS week, count(*) AS cases
FROM courses
GROUP BY {group}, standing, long_enough, CAST(floor(day / 7) AS INT)
