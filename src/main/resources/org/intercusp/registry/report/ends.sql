-- When each case was decided, last seen or cut off, in days from the first active fitting.
SELECT standing, long_enough, day, count(*) AS cases
FROM courses
GROUP BY standing, long_enough, day
