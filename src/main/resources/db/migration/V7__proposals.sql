-- The Patient of a recipient that a treatment was delivered for. Where people there merged two,
-- merged holds the ids of those that were replaced, the first one delivered to first, with spaces
-- between them, and the other identifier is one that the surviving Patient has beside ours.
create table delivered_patient (
    recipient         varchar(64)            not null,
    clinic_system     varchar(400)           not null,
    clinic_value      varchar(200)           not null,
    treatment_id      varchar(200)           not null,
    identifier_system varchar(400)           not null,
    identifier_value  varchar(1000)          not null,
    server_id         varchar(200)           not null,
    merged            text                   not null,
    other_system      varchar(1000)          not null,
    other_value       varchar(1000)          not null,
    primary key (recipient, clinic_system, clinic_value, treatment_id)
);

-- Up to when a recipient was asked for changes, on the recipient's own clock; absent before it was
-- asked for the first time.
create table recipient_poll (
    recipient       varchar(64)              not null primary key,
    server_time     timestamp with time zone,
    asked_at        timestamp with time zone not null,
    trouble         varchar(2000)            not null
);

-- What a recipient's people changed, proposed to the clinic; counted up within a treatment.
create table proposal (
    clinic_system   varchar(400)             not null,
    clinic_value    varchar(200)             not null,
    treatment_id    varchar(200)             not null,
    number          integer                  not null,
    recipient       varchar(64)              not null,
    kind            varchar(20)              not null,
    state           varchar(20)              not null,
    -- what it is about at the recipient
    subject         varchar(2000)            not null,
    -- whether the recipient still says so
    standing        boolean                  not null,
    -- the version last delivered, which it was held against
    base_version    integer                  not null,
    found_at        timestamp with time zone not null,
    decided_at      timestamp with time zone,
    decided_by      varchar(200)             not null,
    made_version    integer,
    reason          varchar(2000)            not null,
    -- changes, what has no place in the file, and where it came from, as JSON
    content         text                     not null,
    primary key (clinic_system, clinic_value, treatment_id, number),
    foreign key (clinic_system, clinic_value, treatment_id)
        references treatment (clinic_system, clinic_value, treatment_id)
);

create index proposal_by_state on proposal (state, kind);
