-- The members of a group, numbered from 1 in the order of their names; 0 is for what is not recorded.
SELECT {column} AS member, CAST(row_number() OVER (ORDER BY {column}) AS INT) AS number
FROM (SELECT DISTINCT {column} FROM cases WHERE {column} IS NOT NULL) AS found
