-- Who saw and did what. A record is written in the transaction of its deed and never changed: give
-- the service's database user no right to update or delete here where the database is shared.
create table audit_event (
    id              varchar(36)              not null primary key,
    recorded_at     timestamp with time zone not null,
    deed            varchar(20)              not null,
    outcome         char(1)                  not null,
    agent           varchar(200)             not null,
    agent_name      varchar(200)             not null,
    agent_kind      varchar(20)              not null,
    thing_type      varchar(200)             not null,
    clinic_system   varchar(400),
    clinic_value    varchar(200),
    thing_id        varchar(200),
    version         integer,
    recipient       varchar(64),
    request         varchar(200)             not null,
    detail          varchar(200)             not null
);

create index audit_event_by_time on audit_event (recorded_at, id);
create index audit_event_by_clinic on audit_event (clinic_system, clinic_value, recorded_at);
create index audit_event_by_thing on audit_event (thing_id, recorded_at);

-- The W3C trace context of the request that asked for a delivery, so that its sending belongs to
-- the same chain; deliveries from before have none.
alter table delivery add column trace varchar(55);
