-- A record as version 1 of its tables kept it; tests/test_record_upgrade.py reads it.
PRAGMA application_id = 1165387118;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
CREATE TABLE book (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL UNIQUE,
        seed INTEGER NOT NULL,
        at TEXT NOT NULL
) STRICT;
INSERT INTO "book" VALUES(1,'hoops.lesson',2691882485690496322,'2026-11-25T14:13:03.043090+00:00');
CREATE TABLE draft (
    problem INTEGER PRIMARY KEY REFERENCES problem (id),
    after INTEGER NOT NULL,
    text TEXT NOT NULL,
    at TEXT NOT NULL
) STRICT;
INSERT INTO "draft" VALUES(1,10,'','2026-11-25T14:13:03.061052+00:00');
INSERT INTO "draft" VALUES(3,13,'half a li','2026-11-25T14:13:03.065523+00:00');
CREATE TABLE edition (
        id INTEGER PRIMARY KEY,
        book INTEGER NOT NULL REFERENCES book (id),
        fingerprint TEXT NOT NULL,
        title TEXT NOT NULL,
        text TEXT NOT NULL,
        at TEXT NOT NULL,
        UNIQUE (book, fingerprint)
) STRICT;
INSERT INTO "edition" VALUES(1,1,'print of one','Hoops','one','2026-11-25T14:13:03.043300+00:00');
CREATE TABLE event (
        id INTEGER PRIMARY KEY,
        edition INTEGER NOT NULL REFERENCES edition (id),
        problem INTEGER NOT NULL REFERENCES problem (id),
        attempt INTEGER NOT NULL CHECK (attempt >= 0),
        kind TEXT NOT NULL
            CHECK (kind IN ('line', 'strike', 'take back', 'appeal', 'close', 'correct', 'go')),
        line INTEGER REFERENCES event (id),
        text TEXT NOT NULL DEFAULT '',
        at TEXT NOT NULL
) STRICT;
INSERT INTO "event" VALUES(1,1,1,0,'line',NULL,'one','2026-11-25T14:13:03.046170+00:00');
INSERT INTO "event" VALUES(2,1,1,0,'line',NULL,'bad two','2026-11-25T14:13:03.048559+00:00');
INSERT INTO "event" VALUES(3,1,1,0,'strike',2,'','2026-11-25T14:13:03.050971+00:00');
INSERT INTO "event" VALUES(4,1,1,0,'line',NULL,'answer','2026-11-25T14:13:03.051910+00:00');
INSERT INTO "event" VALUES(5,1,1,0,'close',NULL,'to correct','2026-11-25T14:13:03.053730+00:00');
INSERT INTO "event" VALUES(6,1,1,1,'correct',NULL,'','2026-11-25T14:13:03.054661+00:00');
INSERT INTO "event" VALUES(7,1,1,1,'line',NULL,'one','2026-11-25T14:13:03.055528+00:00');
INSERT INTO "event" VALUES(8,1,1,1,'line',NULL,'oops','2026-11-25T14:13:03.057219+00:00');
INSERT INTO "event" VALUES(9,1,1,1,'take back',8,'','2026-11-25T14:13:03.059027+00:00');
INSERT INTO "event" VALUES(10,1,1,1,'line',NULL,'hmm','2026-11-25T14:13:03.060105+00:00');
INSERT INTO "event" VALUES(11,1,1,1,'appeal',10,'','2026-11-25T14:13:03.062059+00:00');
INSERT INTO "event" VALUES(12,1,3,0,'go',NULL,'','2026-11-25T14:13:03.062993+00:00');
INSERT INTO "event" VALUES(13,1,3,0,'line',NULL,'huh ((','2026-11-25T14:13:03.063787+00:00');
CREATE TABLE problem (
        id INTEGER PRIMARY KEY,
        book INTEGER NOT NULL REFERENCES book (id),
        name TEXT NOT NULL,
        task TEXT NOT NULL,
        nth INTEGER NOT NULL,
        UNIQUE (book, name, task, nth)
) STRICT;
INSERT INTO "problem" VALUES(1,1,'Candles','{"find": ["x"]}',1);
INSERT INTO "problem" VALUES(2,1,'Hoop','{"find": ["r"], "formulas": ["C = 2 pi r"], "units": ["cm"]}',1);
INSERT INTO "problem" VALUES(3,1,'Banner','{"find": ["y"]}',1);
CREATE TABLE record (
        id INTEGER PRIMARY KEY CHECK (id = 1),
        mark TEXT NOT NULL,
        code TEXT NOT NULL,
        at TEXT NOT NULL
) STRICT;
INSERT INTO "record" VALUES(1,'25411a9560623a381466d7d693ac510f','K7','2026-11-25T14:13:03.039246+00:00');
CREATE TABLE sitting (
        id INTEGER PRIMARY KEY,
        program TEXT NOT NULL,
        at TEXT NOT NULL
) STRICT;
INSERT INTO "sitting" VALUES(1,'0.1.0','2026-11-25T14:13:03.039365+00:00');
CREATE TABLE standing (
        id INTEGER PRIMARY KEY,
        problem INTEGER NOT NULL REFERENCES problem (id),
        status TEXT NOT NULL,
        at TEXT NOT NULL
) STRICT;
INSERT INTO "standing" VALUES(1,1,'begun','2026-11-25T14:13:03.047493+00:00');
INSERT INTO "standing" VALUES(2,1,'to correct','2026-11-25T14:13:03.051038+00:00');
INSERT INTO "standing" VALUES(3,1,'being corrected','2026-11-25T14:13:03.054724+00:00');
CREATE TABLE verdict (
        id INTEGER PRIMARY KEY,
        line INTEGER NOT NULL UNIQUE REFERENCES event (id),
        verdict TEXT NOT NULL,
        reason TEXT,
        slip TEXT,
        message TEXT NOT NULL,
        at TEXT NOT NULL
) STRICT;
INSERT INTO "verdict" VALUES(1,1,'follows',NULL,NULL,'one 0','2026-11-25T14:13:03.047371+00:00');
INSERT INTO "verdict" VALUES(2,2,'breaks',NULL,NULL,'bad 1','2026-11-25T14:13:03.049938+00:00');
INSERT INTO "verdict" VALUES(3,4,'follows',NULL,NULL,'answer 2','2026-11-25T14:13:03.052740+00:00');
INSERT INTO "verdict" VALUES(4,7,'follows',NULL,NULL,'one 0','2026-11-25T14:13:03.056370+00:00');
INSERT INTO "verdict" VALUES(5,8,'follows',NULL,NULL,'oops 1','2026-11-25T14:13:03.058118+00:00');
INSERT INTO "verdict" VALUES(6,10,'undecided',NULL,NULL,'hmm 1','2026-11-25T14:13:03.061000+00:00');
INSERT INTO "verdict" VALUES(7,13,'unread',NULL,NULL,'huh 0','2026-11-25T14:13:03.064547+00:00');
CREATE TRIGGER record_no_update BEFORE UPDATE ON record  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER record_no_delete BEFORE DELETE ON record  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER record_no_insert BEFORE INSERT ON record WHEN EXISTS (SELECT 1 FROM record WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER sitting_no_update BEFORE UPDATE ON sitting  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER sitting_no_delete BEFORE DELETE ON sitting  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER sitting_no_insert BEFORE INSERT ON sitting WHEN EXISTS (SELECT 1 FROM sitting WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER book_no_update BEFORE UPDATE ON book  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER book_no_delete BEFORE DELETE ON book  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER book_no_insert BEFORE INSERT ON book WHEN EXISTS (SELECT 1 FROM book WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER edition_no_update BEFORE UPDATE ON edition  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER edition_no_delete BEFORE DELETE ON edition  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER edition_no_insert BEFORE INSERT ON edition WHEN EXISTS (SELECT 1 FROM edition WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER problem_no_update BEFORE UPDATE ON problem  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER problem_no_delete BEFORE DELETE ON problem  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER problem_no_insert BEFORE INSERT ON problem WHEN EXISTS (SELECT 1 FROM problem WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER event_no_update BEFORE UPDATE ON event  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER event_no_delete BEFORE DELETE ON event  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER event_no_insert BEFORE INSERT ON event WHEN EXISTS (SELECT 1 FROM event WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER verdict_no_update BEFORE UPDATE ON verdict  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER verdict_no_delete BEFORE DELETE ON verdict  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER verdict_no_insert BEFORE INSERT ON verdict WHEN EXISTS (SELECT 1 FROM verdict WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER standing_no_update BEFORE UPDATE ON standing  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER standing_no_delete BEFORE DELETE ON standing  BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER standing_no_insert BEFORE INSERT ON standing WHEN EXISTS (SELECT 1 FROM standing WHERE id = NEW.id) BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE INDEX event_by_problem ON event (problem);
CREATE INDEX standing_by_problem ON standing (problem);
COMMIT;
