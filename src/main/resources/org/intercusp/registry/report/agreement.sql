-- Cases scored twice by the cut-off, by both scores.
SELECT second_par_uk_first AS first_score, second_par_uk_again AS again_score, count(*) AS cases
FROM counted
WHERE second_par_uk_first IS NOT NULL AND second_par_uk_again IS NOT NULL
  AND coalesce(CASE second_phase
    WHEN 'start' THEN start_month
    WHEN 'end-active' THEN end_active_month
    WHEN 'end' THEN end_month
    ELSE retention_month
  END, '') <= '{until}'
GROUP BY second_par_uk_first, second_par_uk_again
