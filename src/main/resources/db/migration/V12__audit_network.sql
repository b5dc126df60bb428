-- Where a refused request came from, as far as the connection tells: 45 characters hold an IPv6
-- address that embeds an IPv4 one. Records of before, and of callers who are known, have none.
alter table audit_event add column network varchar(45);
