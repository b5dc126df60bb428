-- What the report is counted from: each case once, in as few and as small columns as the figures need.
-- standing: 0 going on, 1 completed, 2 discontinued, 3 transferred, 4 unknown; who was seen after the cut-off went on.
-- age_band: under 10, 10-11, 12-13, 14-15, 16 and over, in years, not recorded. sex: 0 female, 1 male, 2 other or unknown.
-- day: decided, last seen or cut off, from the first active fitting; attended: when one that was
-- discontinued was last seen; only where the fitting is dated and before the cut-off.
-- ending: the week of that day (-1 without), standing and long_enough in one number, 16 to the week, 2 to the standing.
-- large_class: of 22 points and more at start, two counts as in scored: those with an end score, and those
-- that should have one: they and the ended without. Who goes on or moved is not scored yet.
-- calendar: what a month of fitting means at the cut-off. days_to_cut_off: from the 15th, below 0 after it, by
-- which an end that was told counts; days_followed: from the middle of the time the month may stand for.
SELECT appliance_number AS appliance, age_band, growth, year_started, clinic_number AS clinic,
  standing, long_enough, age_months, sex,
  CASE WHEN standing = 1 AND treatment_days <= days_to_cut_off THEN 1 ELSE 0 END AS completed,
  CASE WHEN days_to_cut_off >= 0 THEN CASE standing WHEN 0 THEN days_followed WHEN 1 THEN treatment_days WHEN 2 THEN treatment_days ELSE last_attended_days END END AS day,
  CAST(coalesce(floor(day / 7), -1) AS INT) * 16 + 2 * standing + long_enough AS ending,
  CASE WHEN standing = 2 AND treatment_days >= 0 AND days_to_cut_off >= 0 THEN coalesce(last_attended_days, treatment_days) END AS attended,
  uk_before, uk_after, us_before, us_after, icon_before, icon_after,
  start_overjet, end_overjet, start_overbite, end_overbite, wear_reported, wear_measured, harms,
  CASE
    WHEN uk_before >= 22 AND uk_after >= 0 THEN 2147483649
    WHEN uk_before >= 22 AND standing IN (1, 2, 4) THEN 2147483648
    ELSE 0
  END AS large_class,
  uk_class, us_class, icon_high_class, icon_low_class, dhc_class, need_class, broke_class, present
FROM (
  SELECT s.*,
    coalesce(a.number, 0) AS appliance_number,
    coalesce(g.number, 0) AS growth,
    coalesce(l.number, 0) AS clinic_number,
    k.days_to_cut_off,
    k.days_followed,
    coalesce(k.long_enough, 0) AS long_enough,
    CASE
      WHEN s.ended = 0 THEN 0
      WHEN CASE s.ended WHEN 4 THEN s.last_attended_days ELSE s.treatment_days END > k.days_to_cut_off THEN 0
      ELSE s.ended
    END AS standing
  FROM scored s
    LEFT JOIN calendar k ON k.month = s.first_fitted_month
    LEFT JOIN appliances a ON a.member = s.appliance
    LEFT JOIN growths g ON g.member = s.growth_stage
    LEFT JOIN clinics l ON l.member = s.clinic
    LEFT JOIN dropped d ON d.sequence = s.sequence
  WHERE d.sequence IS NULL
) AS placed
