-- A logbook of schema 2 with three readings, as that version wrote it. Never changed.
PRAGMA application_id=1363299394; PRAGMA user_version=2;
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
CREATE TABLE calibration(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  device TEXT NOT NULL,
  ppm REAL NOT NULL,
  ppm_u REAL NOT NULL,
  how TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "calibration" VALUES(1,'USB microphone',-12.5,1.5,'entered by hand',1790000006000,780,4163004800);
CREATE TABLE climate(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  instrument INTEGER NOT NULL REFERENCES instrument,
  session INTEGER REFERENCES session,
  temperature_c REAL,
  humidity_percent REAL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "climate" VALUES(1,1,1,19.5,52.0,1790000004000,780,795829700);
CREATE TABLE description(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  instrument INTEGER NOT NULL REFERENCES instrument,
  name TEXT NOT NULL,
  content TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "description" VALUES(1,1,'Spinet after nobody (invented)','{"schema":1,"id":"test-spinet"}',1790000000000,780,2304162436);
CREATE TABLE event(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  session INTEGER NOT NULL REFERENCES session,
  place INTEGER NOT NULL,
  schema INTEGER NOT NULL,
  content TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL,
  UNIQUE(session, place)) STRICT;
INSERT INTO "event" VALUES(1,1,0,1,'{"kind":"heard","pluck":0}',1790000000000,780,1979350448);
INSERT INTO "event" VALUES(2,1,1,1,'{"kind":"heard","pluck":1}',1790000001000,780,3070607676);
INSERT INTO "event" VALUES(3,1,2,1,'{"kind":"heard","pluck":2}',1790000002000,780,975471901);
CREATE TABLE instrument(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  key TEXT NOT NULL UNIQUE,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "instrument" VALUES(1,'test-spinet',2743811270);
CREATE TABLE reading(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  session INTEGER NOT NULL REFERENCES session,
  event INTEGER NOT NULL REFERENCES event,
  string INTEGER NOT NULL REFERENCES string,
  note TEXT NOT NULL,
  position INTEGER NOT NULL,
  plucks INTEGER NOT NULL,
  used_s REAL NOT NULL,
  target_hz REAL NOT NULL,
  pitch_hz REAL NOT NULL,
  pitch_hz_u REAL NOT NULL,
  deviation_cents REAL NOT NULL,
  deviation_cents_u REAL NOT NULL,
  start_cents REAL NOT NULL,
  start_cents_u REAL NOT NULL,
  inharmonicity REAL NOT NULL,
  inharmonicity_u REAL NOT NULL,
  own_beat_hz REAL,
  warnings TEXT NOT NULL,
  source TEXT NOT NULL,
  rate_hz REAL NOT NULL,
  clock_ppm REAL NOT NULL,
  clock_ppm_u REAL NOT NULL,
  settings TEXT NOT NULL,
  engine TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "reading" VALUES(1,1,1,1,'A3',0,3,2.4,207.5,207.5,0.004,0.0,0.03,1.0,0.0,2.1e-05,0.0,NULL,'','virtual',48000.0,0.0,50.0,'{}','0.1.0',1790000000000,780,1699404667);
INSERT INTO "reading" VALUES(2,1,2,2,'A3',0,3,2.4,207.5,207.501,0.004,0.01,0.03,1.0,0.0,2.1e-05,0.0,NULL,'','virtual',48000.0,0.0,50.0,'{}','0.1.0',1790000001000,780,3146934465);
INSERT INTO "reading" VALUES(3,1,3,3,'A3',0,3,2.4,207.5,207.502,0.004,0.02,0.03,1.0,0.0,2.1e-05,0.0,NULL,'','virtual',48000.0,0.0,50.0,'{}','0.1.0',1790000002000,780,3667650112);
CREATE TABLE remark(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  instrument INTEGER NOT NULL REFERENCES instrument,
  session INTEGER REFERENCES session,
  string INTEGER REFERENCES string,
  text TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "remark" VALUES(1,1,1,4,'false beat, pin loose',1790000003000,780,1873090113);
CREATE TABLE session(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  uid TEXT NOT NULL UNIQUE,
  description INTEGER NOT NULL REFERENCES description,
  kind TEXT NOT NULL,
  method TEXT NOT NULL,
  inputs_schema INTEGER NOT NULL,
  inputs TEXT NOT NULL,
  engine TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "session" VALUES(1,'uid-1',1,'first-octave','meter',1,'{"choir":"8","temperament":"vallotti"}','0.1.0',1790000000000,780,417278220);
CREATE TABLE session_end(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  session INTEGER NOT NULL UNIQUE REFERENCES session,
  how TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "session_end" VALUES(1,1,'done',1790000009000,780,3656503324);
CREATE TABLE step(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  session INTEGER NOT NULL REFERENCES session,
  event INTEGER NOT NULL REFERENCES event,
  step INTEGER NOT NULL,
  string INTEGER REFERENCES string,
  reading INTEGER REFERENCES reading,
  state TEXT NOT NULL,
  reason TEXT NOT NULL,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "step" VALUES(1,1,1,0,1,1,'settled','',1437463510);
INSERT INTO "step" VALUES(2,1,2,1,2,2,'settled','',2771293149);
INSERT INTO "step" VALUES(3,1,3,2,3,3,'settled','',2158431646);
CREATE TABLE string(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  instrument INTEGER NOT NULL REFERENCES instrument,
  choir TEXT NOT NULL,
  course INTEGER NOT NULL,
  note TEXT NOT NULL,
  sum INTEGER NOT NULL,
  UNIQUE(instrument, choir, course)) STRICT;
INSERT INTO "string" VALUES(1,1,'8',0,'A3',4075755909);
INSERT INTO "string" VALUES(2,1,'8',1,'A3',2659615858);
INSERT INTO "string" VALUES(3,1,'8',2,'A3',1420364222);
INSERT INTO "string" VALUES(4,1,'8',3,'C3',1952701726);
INSERT INTO "string" VALUES(5,1,'4',7,'E3',2502128082);
CREATE TABLE string_change(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  string INTEGER NOT NULL REFERENCES string,
  session INTEGER REFERENCES session,
  diameter_mm REAL,
  material TEXT,
  reason TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
INSERT INTO "string_change" VALUES(1,5,NULL,0.24,NULL,'broken',1790000005000,780,2802116019);
CREATE INDEX reading_by_session ON reading(session);
CREATE INDEX reading_by_string ON reading(string);
CREATE INDEX step_by_session ON step(session);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('instrument',1);
INSERT INTO "sqlite_sequence" VALUES('description',1);
INSERT INTO "sqlite_sequence" VALUES('session',1);
INSERT INTO "sqlite_sequence" VALUES('event',3);
INSERT INTO "sqlite_sequence" VALUES('string',5);
INSERT INTO "sqlite_sequence" VALUES('reading',3);
INSERT INTO "sqlite_sequence" VALUES('step',3);
INSERT INTO "sqlite_sequence" VALUES('remark',1);
INSERT INTO "sqlite_sequence" VALUES('climate',1);
INSERT INTO "sqlite_sequence" VALUES('string_change',1);
INSERT INTO "sqlite_sequence" VALUES('calibration',1);
INSERT INTO "sqlite_sequence" VALUES('session_end',1);
COMMIT;
