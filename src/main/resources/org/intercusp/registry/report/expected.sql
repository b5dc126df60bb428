-- What the model expects of each clinic; foretold gives the probability of each case.
SELECT clinic, count(*) AS cases, CAST(sum(happened) AS BIGINT) AS happened,
  sum(probability) AS expected, sum(probability * (1 - probability)) AS variance
FROM foretold
GROUP BY clinic
