-- The same by group, by the week.
SELECT {group} AS member, ending, count(*) AS cases
FROM courses
GROUP BY {group}, ending
