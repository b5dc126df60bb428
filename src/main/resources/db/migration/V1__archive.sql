-- Stored treatments, by clinic. Written for H2 and PostgreSQL alike: nothing here belongs to one of
-- them. A version is written once and never changed; the row above it says which is the newest.
-- The widths keep the longest possible key inside the 2,704 bytes of a PostgreSQL index row.
create table treatment (
    clinic_system   varchar(400)             not null,
    clinic_value    varchar(200)             not null,
    treatment_id    varchar(200)             not null,
    newest          integer                  not null,
    primary key (clinic_system, clinic_value, treatment_id)
);

-- The service's paths name a treatment by its id alone.
create index treatment_by_id on treatment (treatment_id);

-- The canonical text of a treatment file is UTF-8 JSON, so it is kept as text; digest is the
-- SHA-256 of its bytes in lower-case hexadecimal.
create table treatment_version (
    clinic_system   varchar(400)             not null,
    clinic_value    varchar(200)             not null,
    treatment_id    varchar(200)             not null,
    version         integer                  not null,
    received_at     timestamp with time zone not null,
    digest          char(64)                 not null,
    content         text                     not null,
    primary key (clinic_system, clinic_value, treatment_id, version),
    foreign key (clinic_system, clinic_value, treatment_id)
        references treatment (clinic_system, clinic_value, treatment_id)
);
