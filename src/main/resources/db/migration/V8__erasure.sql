-- When a treatment was erased. The row stays without its content, so that its id is never used
-- again; its newest version is then 0.
alter table treatment add column erased_at timestamp with time zone;

-- What stands in the way of passing the record on: refused or withdrawn; absent where consent
-- stands. Rows of before are made anew.
alter table worklist add column consent varchar(20);
