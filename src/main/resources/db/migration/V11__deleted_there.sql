-- What a recipient's people deleted of what was delivered to them: whether somebody at the clinic
-- decided that it is to be sent again, or to be left deleted; empty where nobody did.
alter table delivered_resource add column deletion varchar(20) default '' not null;

-- Where the rounds through all that a recipient was given, which find what is not there any more,
-- have come to: the lane of the patient looked at last.
alter table recipient_poll add column round_at varchar(64) default '' not null;

-- Whether all writes of an attempt of which nobody heard had conditions: only those may be repeated
-- at once.
alter table delivery_attempt add column unanswered_conditional boolean default false not null;

-- Since when a delivery is to go: later than it was queued where it was kept for a later day, or
-- where somebody had it tried again.
alter table delivery add column wanted_at timestamp with time zone;
update delivery set wanted_at = case when state = 'queued' and due_at > queued_at then due_at
    else queued_at end;
