-- The index behind the list of treatments: one row for the newest version of each, written with it.
-- Older treatments get theirs when the service starts. Nothing here is the record itself: every row
-- can be made anew from the archive.
create table worklist (
    clinic_system   varchar(400)             not null,
    clinic_value    varchar(200)             not null,
    treatment_id    varchar(200)             not null,
    version         integer                  not null,
    received_at     timestamp with time zone not null,
    -- what it was judged by (the program's rules and the clinic's limits), and on which day; a
    -- record that does not say which day it speaks of is judged anew every day
    edition         char(64)                 not null,
    judged_on       date                     not null,
    day_bound       boolean                  not null,
    clinic_name     varchar(1000)            not null,
    patient_name    varchar(1000)            not null,
    patient_number  varchar(1000)            not null,
    -- for sorting and searching: lower case without accents
    sort_name       varchar(1000)            not null,
    search          varchar(4000)            not null,
    status          varchar(40)              not null,
    stage           varchar(40),
    -- findings: errors that stop a delivery, signs of harm not answered yet, warnings
    errors          integer                  not null,
    urgent          integer                  not null,
    warnings        integer                  not null,
    -- millimetres
    overjet_start   decimal(9, 3),
    overjet_now     decimal(9, 3),
    overjet_target  decimal(9, 3),
    next_from       date,
    next_by         date,
    primary key (clinic_system, clinic_value, treatment_id),
    foreign key (clinic_system, clinic_value, treatment_id)
        references treatment (clinic_system, clinic_value, treatment_id)
);

create index worklist_by_name on worklist (sort_name);
create index worklist_by_edition on worklist (edition, day_bound, judged_on);
