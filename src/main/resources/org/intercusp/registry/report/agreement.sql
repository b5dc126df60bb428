-- Cases scored twice, by both scores.
SELECT second_par_uk_first AS first_score, second_par_uk_again AS again_score, count(*) AS cases
FROM counted
WHERE second_par_uk_first IS NOT NULL AND second_par_uk_again IS NOT NULL
GROUP BY second_par_uk_first, second_par_uk_again
