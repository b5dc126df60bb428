-- Cases with an adverse event, by the kinds they had.
SELECT {group} AS member, harms, count(*) AS cases
FROM courses
WHERE harms > 0
GROUP BY {group}, harms
