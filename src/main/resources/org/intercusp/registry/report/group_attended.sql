-- The same by group, by the week: packed as ending is.
SELECT {group} AS member, CAST(floor(attended / 7) AS INT) * 16 + 2 * standing + long_enough AS ending, count(*) AS cases
FROM courses
WHERE attended IS NOT NULL
GROUP BY {group}, CAST(floor(attended / 7) AS INT) * 16 + 2 * standing + long_enough
