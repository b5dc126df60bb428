-- Cases with an adverse event, by kind.
SELECT appliance, age_band, growth, year_started, clinic,
  count(*) AS harm_any,
  CAST(sum(CASE WHEN ae_caries > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_caries,
  CAST(sum(CASE WHEN ae_white_spot > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_white_spot,
  CAST(sum(CASE WHEN ae_gingivitis > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_gingivitis,
  CAST(sum(CASE WHEN ae_ulcer > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_ulcer,
  CAST(sum(CASE WHEN ae_allergy > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_allergy,
  CAST(sum(CASE WHEN ae_joint > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_joint,
  CAST(sum(CASE WHEN ae_incisor_trauma > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_incisor_trauma,
  CAST(sum(CASE WHEN ae_root_resorption > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_root_resorption,
  CAST(sum(CASE WHEN ae_fragment_swallowed > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_fragment_swallowed,
  CAST(sum(CASE WHEN ae_fragment_inhaled > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_fragment_inhaled,
  CAST(sum(CASE WHEN ae_other > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_other,
  CAST(sum(CASE WHEN ae_serious > 0 THEN 1 ELSE 0 END) AS BIGINT) AS harm_serious
FROM counted
WHERE ae_caries + ae_white_spot + ae_gingivitis + ae_ulcer + ae_allergy + ae_joint + ae_incisor_trauma + ae_root_resorption + ae_fragment_swallowed + ae_fragment_inhaled + ae_other + ae_serious > 0
GROUP BY appliance, age_band, growth, year_started, clinic
