-- The record: quilts, people, patterns and publications, with what hangs on each.
-- A date is five columns: as written, as EDTF, its two bounds, and in words as it was shown back.
-- `put_away` says why a record is hidden, and is empty while it stands open. AUTOINCREMENT keeps the
-- number of a purged record from being given again: it stands on labels and in the codes on cards.

CREATE TABLE party (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  revision INTEGER NOT NULL,
  name TEXT NOT NULL CHECK (name <> ''),
  kind TEXT NOT NULL,
  sort_name TEXT NOT NULL,
  born_written TEXT, born_edtf TEXT, born_earliest TEXT, born_latest TEXT, born_says TEXT,
  died_written TEXT, died_edtf TEXT, died_earliest TEXT, died_latest TEXT, died_says TEXT,
  living INTEGER NOT NULL,
  place TEXT NOT NULL,
  biography TEXT NOT NULL,
  merged_into INTEGER REFERENCES party,
  put_away TEXT NOT NULL
) STRICT;
CREATE INDEX party_merged ON party (merged_into);

CREATE TABLE party_name (
  id INTEGER PRIMARY KEY,
  party INTEGER NOT NULL REFERENCES party ON DELETE CASCADE,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  form TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX party_name_of ON party_name (party);

CREATE TABLE family_tie (
  id INTEGER PRIMARY KEY,
  party INTEGER NOT NULL REFERENCES party ON DELETE CASCADE,
  position INTEGER NOT NULL,
  relative INTEGER NOT NULL REFERENCES party,
  relation TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX family_tie_of ON family_tie (party);
CREATE INDEX family_tie_relative ON family_tie (relative);

-- Private: how to reach a party. Kept apart so that nothing public ever reads it.
CREATE TABLE contact (
  id INTEGER PRIMARY KEY,
  party INTEGER NOT NULL REFERENCES party ON DELETE CASCADE,
  position INTEGER NOT NULL,
  address TEXT NOT NULL,
  telephone TEXT NOT NULL,
  email TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX contact_of ON contact (party);

CREATE TABLE publication (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  revision INTEGER NOT NULL,
  name TEXT NOT NULL CHECK (name <> ''),
  kind TEXT NOT NULL,
  publisher TEXT NOT NULL,
  place TEXT NOT NULL,
  dates_written TEXT, dates_edtf TEXT, dates_earliest TEXT, dates_latest TEXT, dates_says TEXT,
  note TEXT NOT NULL,
  put_away TEXT NOT NULL
) STRICT;

CREATE TABLE pattern (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  revision INTEGER NOT NULL,
  name TEXT NOT NULL CHECK (name <> ''),
  design TEXT NOT NULL,
  family TEXT NOT NULL,
  note TEXT NOT NULL,
  put_away TEXT NOT NULL
) STRICT;

CREATE TABLE pattern_name (
  id INTEGER PRIMARY KEY,
  pattern INTEGER NOT NULL REFERENCES pattern ON DELETE CASCADE,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  source TEXT NOT NULL
) STRICT;
CREATE INDEX pattern_name_of ON pattern_name (pattern);

CREATE TABLE printing (
  id INTEGER PRIMARY KEY,
  pattern INTEGER NOT NULL REFERENCES pattern ON DELETE CASCADE,
  position INTEGER NOT NULL,
  publication INTEGER NOT NULL REFERENCES publication,
  number TEXT NOT NULL,
  date_written TEXT, date_edtf TEXT, date_earliest TEXT, date_latest TEXT, date_says TEXT,
  page TEXT NOT NULL,
  name_as_printed TEXT NOT NULL,
  designer_as_printed TEXT NOT NULL,
  house_name TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX printing_of ON printing (pattern);
CREATE INDEX printing_in ON printing (publication);

CREATE TABLE quilt (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  revision INTEGER NOT NULL,
  title TEXT NOT NULL CHECK (title <> ''),
  accession TEXT NOT NULL,
  accession_key TEXT NOT NULL,
  object_type TEXT NOT NULL,
  status TEXT NOT NULL,
  published INTEGER NOT NULL,
  description TEXT NOT NULL,
  history TEXT NOT NULL,
  distinguishing_features TEXT NOT NULL,
  subject TEXT NOT NULL,
  related_material TEXT NOT NULL,
  maker_unknown INTEGER NOT NULL,
  no_inscriptions INTEGER NOT NULL,
  paragraph TEXT NOT NULL,
  paragraph_revision INTEGER,
  donor INTEGER REFERENCES party,
  came_by TEXT NOT NULL,
  received_written TEXT, received_edtf TEXT, received_earliest TEXT, received_latest TEXT,
  received_says TEXT,
  restrictions TEXT NOT NULL,
  credit_line TEXT NOT NULL,
  insurance_value TEXT NOT NULL,
  insurance_note TEXT NOT NULL,
  setting_seen TEXT NOT NULL,
  counted_columns INTEGER,
  counted_rows INTEGER,
  sashing TEXT NOT NULL,
  cornerstones TEXT NOT NULL,
  borders_seen TEXT NOT NULL,
  binding TEXT NOT NULL,
  binding_within_border TEXT NOT NULL,
  edge TEXT NOT NULL,
  length_unit TEXT NOT NULL,
  quilting_design TEXT NOT NULL,
  quilting_worked TEXT NOT NULL,
  stitches_per_inch INTEGER,
  edge_finish TEXT NOT NULL,
  put_away TEXT NOT NULL
) STRICT;
CREATE UNIQUE INDEX quilt_accession ON quilt (accession_key) WHERE accession_key <> '';
CREATE INDEX quilt_donor ON quilt (donor);

CREATE TABLE earlier_number (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  number TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX earlier_number_of ON earlier_number (quilt);

CREATE TABLE block_kind (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  label TEXT NOT NULL,
  pattern INTEGER REFERENCES pattern,
  printing INTEGER REFERENCES printing,
  certainty TEXT NOT NULL,
  counted INTEGER,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX block_kind_of ON block_kind (quilt);
CREATE INDEX block_kind_pattern ON block_kind (pattern);
CREATE INDEX block_kind_printing ON block_kind (printing);

CREATE TABLE border (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  sides TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX border_of ON border (quilt);

-- A length is an exact fraction of an inch, "341/4" or "12".
CREATE TABLE reading (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  part TEXT NOT NULL,
  dimension TEXT NOT NULL,
  written TEXT NOT NULL,
  inches TEXT NOT NULL,
  number INTEGER NOT NULL,
  "where" TEXT NOT NULL,
  "by" TEXT NOT NULL,
  "on" TEXT NOT NULL,
  error TEXT
) STRICT;
CREATE INDEX reading_of ON reading (quilt);

CREATE TABLE phase (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  kind TEXT NOT NULL,
  date_written TEXT, date_edtf TEXT, date_earliest TEXT, date_latest TEXT, date_says TEXT,
  place TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX phase_of ON phase (quilt);

CREATE TABLE phase_maker (
  id INTEGER PRIMARY KEY,
  phase INTEGER NOT NULL REFERENCES phase ON DELETE CASCADE,
  position INTEGER NOT NULL,
  party INTEGER NOT NULL REFERENCES party,
  certainty TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX phase_maker_of ON phase_maker (phase);
CREATE INDEX phase_maker_party ON phase_maker (party);

CREATE TABLE phase_clue (
  id INTEGER PRIMARY KEY,
  phase INTEGER NOT NULL REFERENCES phase ON DELETE CASCADE,
  position INTEGER NOT NULL,
  clue TEXT NOT NULL,
  first_year INTEGER,
  last_year INTEGER,
  present TEXT NOT NULL,
  original TEXT NOT NULL,
  role TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX phase_clue_of ON phase_clue (phase);

CREATE TABLE material (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  part TEXT NOT NULL,
  fibre TEXT NOT NULL,
  colours TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX material_of ON material (quilt);

CREATE TABLE technique (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  worked TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX technique_of ON technique (quilt);

CREATE TABLE inscription (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  text TEXT NOT NULL,
  kind TEXT NOT NULL,
  "where" TEXT NOT NULL,
  how TEXT NOT NULL,
  block TEXT NOT NULL,
  date_written TEXT, date_edtf TEXT, date_earliest TEXT, date_latest TEXT, date_says TEXT,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX inscription_of ON inscription (quilt);

CREATE TABLE ownership_period (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  party TEXT NOT NULL,
  person INTEGER REFERENCES party,
  life TEXT NOT NULL,
  relation TEXT NOT NULL,
  method TEXT NOT NULL,
  agent TEXT NOT NULL,
  place TEXT NOT NULL,
  event TEXT NOT NULL,
  seller_agent TEXT NOT NULL,
  transfer_place TEXT NOT NULL,
  dates TEXT NOT NULL,
  begins_earliest TEXT NOT NULL,
  begins_latest TEXT NOT NULL,
  ends_earliest TEXT NOT NULL,
  ends_latest TEXT NOT NULL,
  stock_number TEXT NOT NULL,
  price TEXT NOT NULL,
  dealer INTEGER NOT NULL,
  possibly INTEGER NOT NULL,
  doubtful TEXT NOT NULL,
  direct INTEGER NOT NULL,
  note TEXT NOT NULL,
  citation TEXT NOT NULL
) STRICT;
CREATE INDEX ownership_period_of ON ownership_period (quilt);
CREATE INDEX ownership_period_person ON ownership_period (person);

CREATE TABLE condition_report (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  grade TEXT NOT NULL,
  "on" TEXT NOT NULL,
  "by" TEXT NOT NULL,
  text TEXT NOT NULL,
  hazard TEXT NOT NULL,
  hazard_note TEXT NOT NULL
) STRICT;
CREATE INDEX condition_report_of ON condition_report (quilt);

CREATE TABLE location (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  place TEXT NOT NULL,
  since TEXT NOT NULL,
  "by" TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX location_of ON location (quilt);

-- What belongs to a quilt's story without being a quilt.
CREATE TABLE related_item (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  revision INTEGER NOT NULL,
  title TEXT NOT NULL CHECK (title <> ''),
  kind TEXT NOT NULL,
  description TEXT NOT NULL,
  date_written TEXT, date_edtf TEXT, date_earliest TEXT, date_latest TEXT, date_says TEXT,
  kept TEXT NOT NULL,
  rights TEXT NOT NULL,
  published INTEGER NOT NULL,
  put_away TEXT NOT NULL
) STRICT;

CREATE TABLE link (
  id INTEGER PRIMARY KEY,
  related_item INTEGER NOT NULL REFERENCES related_item ON DELETE CASCADE,
  position INTEGER NOT NULL,
  quilt INTEGER REFERENCES quilt ON DELETE CASCADE,
  pattern INTEGER REFERENCES pattern ON DELETE CASCADE,
  publication INTEGER REFERENCES publication ON DELETE CASCADE,
  party INTEGER REFERENCES party ON DELETE CASCADE,
  note TEXT NOT NULL,
  CHECK ((quilt IS NOT NULL) + (pattern IS NOT NULL) + (publication IS NOT NULL)
         + (party IS NOT NULL) = 1)
) STRICT;
CREATE INDEX link_of ON link (related_item);
CREATE INDEX link_quilt ON link (quilt);
CREATE INDEX link_pattern ON link (pattern);
CREATE INDEX link_publication ON link (publication);
CREATE INDEX link_party ON link (party);

CREATE TABLE exhibit (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  revision INTEGER NOT NULL,
  title TEXT NOT NULL CHECK (title <> ''),
  text TEXT NOT NULL,
  venue TEXT NOT NULL,
  begins TEXT NOT NULL,
  ends TEXT NOT NULL,
  hours_a_day REAL,
  lux REAL,
  ultraviolet REAL,
  dark_days TEXT NOT NULL,
  published INTEGER NOT NULL,
  put_away TEXT NOT NULL
) STRICT;

CREATE TABLE exhibit_wall (
  id INTEGER PRIMARY KEY,
  exhibit INTEGER NOT NULL REFERENCES exhibit ON DELETE CASCADE,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  length TEXT NOT NULL,
  height TEXT NOT NULL
) STRICT;
CREATE INDEX exhibit_wall_of ON exhibit_wall (exhibit);

CREATE TABLE wall_obstacle (
  id INTEGER PRIMARY KEY,
  exhibit_wall INTEGER NOT NULL REFERENCES exhibit_wall ON DELETE CASCADE,
  position INTEGER NOT NULL,
  kind TEXT NOT NULL,
  x TEXT NOT NULL,
  y TEXT NOT NULL,
  width TEXT NOT NULL,
  height TEXT NOT NULL,
  name TEXT NOT NULL,
  may_be_covered INTEGER NOT NULL
) STRICT;
CREATE INDEX wall_obstacle_of ON wall_obstacle (exhibit_wall);

CREATE TABLE exhibit_quilt (
  id INTEGER PRIMARY KEY,
  exhibit INTEGER NOT NULL REFERENCES exhibit ON DELETE CASCADE,
  position INTEGER NOT NULL,
  quilt INTEGER NOT NULL REFERENCES quilt,
  label_text TEXT NOT NULL,
  wall TEXT NOT NULL,
  x TEXT,
  bottom TEXT,
  loan_papers TEXT NOT NULL,
  out_on TEXT NOT NULL,
  out_by TEXT NOT NULL,
  out_grade TEXT NOT NULL,
  out_text TEXT NOT NULL,
  back_on TEXT NOT NULL,
  back_by TEXT NOT NULL,
  back_grade TEXT NOT NULL,
  back_text TEXT NOT NULL
) STRICT;
CREATE INDEX exhibit_quilt_of ON exhibit_quilt (exhibit);
CREATE INDEX exhibit_quilt_quilt ON exhibit_quilt (quilt);

-- A talk, its items in their order, and the version that was given, which no longer changes.
CREATE TABLE talk (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  revision INTEGER NOT NULL,
  title TEXT NOT NULL CHECK (title <> ''),
  "on" TEXT NOT NULL,
  begins TEXT NOT NULL,
  place TEXT NOT NULL,
  audience TEXT NOT NULL,
  speaker TEXT NOT NULL,
  minutes INTEGER,
  notes TEXT NOT NULL,
  further_reading TEXT NOT NULL,
  published INTEGER NOT NULL,
  put_away TEXT NOT NULL
) STRICT;

CREATE TABLE talk_item (
  id INTEGER PRIMARY KEY,
  talk INTEGER NOT NULL REFERENCES talk ON DELETE CASCADE,
  position INTEGER NOT NULL,
  words TEXT NOT NULL,
  borrowed INTEGER NOT NULL,
  quilt INTEGER REFERENCES quilt,
  pattern INTEGER REFERENCES pattern,
  publication INTEGER REFERENCES publication,
  related_item INTEGER REFERENCES related_item,
  party INTEGER REFERENCES party,
  minutes INTEGER,
  notes TEXT NOT NULL,
  CHECK ((quilt IS NOT NULL) + (pattern IS NOT NULL) + (publication IS NOT NULL)
         + (related_item IS NOT NULL) + (party IS NOT NULL) + (words <> '') = 1)
) STRICT;
CREATE INDEX talk_item_of ON talk_item (talk);
CREATE INDEX talk_item_quilt ON talk_item (quilt);
CREATE INDEX talk_item_pattern ON talk_item (pattern);
CREATE INDEX talk_item_publication ON talk_item (publication);
CREATE INDEX talk_item_related ON talk_item (related_item);
CREATE INDEX talk_item_party ON talk_item (party);

CREATE TABLE talk_given (
  id INTEGER PRIMARY KEY,
  talk INTEGER NOT NULL REFERENCES talk ON DELETE CASCADE,
  position INTEGER NOT NULL,
  title TEXT NOT NULL,
  "on" TEXT NOT NULL,
  place TEXT NOT NULL,
  audience TEXT NOT NULL,
  speaker TEXT NOT NULL,
  notes TEXT NOT NULL,
  "by" TEXT NOT NULL,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX talk_given_of ON talk_given (talk);

CREATE TABLE given_item (
  id INTEGER PRIMARY KEY,
  talk_given INTEGER NOT NULL REFERENCES talk_given ON DELETE CASCADE,
  position INTEGER NOT NULL,
  kind TEXT NOT NULL,
  title TEXT NOT NULL,
  lines TEXT NOT NULL,
  quilt INTEGER REFERENCES quilt,
  minutes INTEGER,
  notes TEXT NOT NULL
) STRICT;
CREATE INDEX given_item_of ON given_item (talk_given);
CREATE INDEX given_item_quilt ON given_item (quilt);

-- Cards and labels: who read and approved which wording of which, and what was printed when.
CREATE TABLE paper_state (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  kind TEXT NOT NULL,
  fingerprint TEXT NOT NULL,
  state TEXT NOT NULL,
  "by" TEXT NOT NULL,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX paper_state_of ON paper_state (quilt, kind, fingerprint);
CREATE TABLE printed (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  kind TEXT NOT NULL,
  revision INTEGER NOT NULL,
  fingerprint TEXT NOT NULL,
  proof INTEGER NOT NULL,
  "by" TEXT NOT NULL,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX printed_of ON printed (quilt, kind);

-- A photograph belongs to a quilt, to a piece of related material or to a quilt in an exhibit.
CREATE TABLE photograph (
  id INTEGER PRIMARY KEY,
  quilt INTEGER REFERENCES quilt ON DELETE CASCADE,
  related_item INTEGER REFERENCES related_item ON DELETE CASCADE,
  exhibit_quilt INTEGER REFERENCES exhibit_quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  file TEXT NOT NULL,
  format TEXT NOT NULL,
  pixels_wide INTEGER NOT NULL,
  pixels_high INTEGER NOT NULL,
  view TEXT NOT NULL,
  caption TEXT NOT NULL,
  alternative_text TEXT NOT NULL,
  photographer TEXT NOT NULL,
  rights TEXT NOT NULL,
  corners TEXT NOT NULL,
  grey_card TEXT NOT NULL
) STRICT;
CREATE INDEX photograph_of ON photograph (quilt);
CREATE INDEX photograph_of_item ON photograph (related_item);
CREATE INDEX photograph_of_shown ON photograph (exhibit_quilt);
CREATE INDEX photograph_file ON photograph (file);

CREATE TABLE photograph_colour (
  id INTEGER PRIMARY KEY,
  photograph INTEGER NOT NULL REFERENCES photograph ON DELETE CASCADE,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  plain TEXT NOT NULL,
  code TEXT NOT NULL,
  share REAL NOT NULL
) STRICT;
CREATE INDEX photograph_colour_of ON photograph_colour (photograph);

CREATE TABLE turned_block (
  id INTEGER PRIMARY KEY,
  photograph INTEGER NOT NULL REFERENCES photograph ON DELETE CASCADE,
  position INTEGER NOT NULL,
  across INTEGER NOT NULL,
  down INTEGER NOT NULL,
  turn TEXT NOT NULL,
  decision TEXT NOT NULL,
  "by" TEXT NOT NULL,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX turned_block_of ON turned_block (photograph);

CREATE TABLE layout_decision (
  id INTEGER PRIMARY KEY,
  quilt INTEGER NOT NULL REFERENCES quilt ON DELETE CASCADE,
  position INTEGER NOT NULL,
  decision TEXT NOT NULL,
  layout TEXT NOT NULL,
  readings TEXT NOT NULL,
  "by" TEXT NOT NULL,
  at TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX layout_decision_of ON layout_decision (quilt);

-- Every change of a record: the fields it touched, before and after, as JSON.
CREATE TABLE change (
  id INTEGER PRIMARY KEY,
  subject TEXT NOT NULL,
  subject_id INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  "by" TEXT NOT NULL,
  at TEXT NOT NULL,
  before TEXT NOT NULL,
  after TEXT NOT NULL,
  UNIQUE (subject, subject_id, revision)
) STRICT;

-- A digest of every record and every entry of its history as written (see `collection/seals.py`).
CREATE TABLE seal (
  subject TEXT NOT NULL,
  subject_id INTEGER NOT NULL,
  digest BLOB NOT NULL,
  PRIMARY KEY (subject, subject_id)
) STRICT, WITHOUT ROWID;

-- Two records of one person made one: what was moved, so that it can be moved back.
CREATE TABLE merge (
  id INTEGER PRIMARY KEY,
  kept INTEGER NOT NULL REFERENCES party,
  merged INTEGER NOT NULL REFERENCES party,
  "by" TEXT NOT NULL,
  at TEXT NOT NULL,
  moved TEXT NOT NULL,
  undone_by TEXT,
  undone_at TEXT
) STRICT;
CREATE INDEX merge_kept ON merge (kept);

-- Two records that look like one person and are not.
CREATE TABLE told_apart (
  one INTEGER NOT NULL REFERENCES party,
  other INTEGER NOT NULL REFERENCES party,
  "by" TEXT NOT NULL,
  at TEXT NOT NULL,
  PRIMARY KEY (one, other)
) STRICT;

-- The search index is a shadow of the record: what still has to be brought to it, what it holds
-- (texts by field as JSON, for anybody and for members alone, to show extracts from), and which
-- files it consists of (an index whose files are not these is never opened). The state is one row:
-- by which version the index was made, and how often it was brought up to date.
CREATE TABLE index_queue (
  quilt INTEGER PRIMARY KEY
) STRICT;
CREATE TABLE indexed (
  quilt INTEGER PRIMARY KEY,
  digest TEXT NOT NULL,
  words INTEGER NOT NULL,
  public TEXT NOT NULL,
  members TEXT NOT NULL
) STRICT;
CREATE TABLE index_file (
  name TEXT PRIMARY KEY,
  sha256 TEXT NOT NULL
) STRICT;
CREATE TABLE index_state (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  version TEXT NOT NULL,
  turn INTEGER NOT NULL
) STRICT;

CREATE TABLE setting (
  name TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT;

CREATE TABLE account (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (name <> ''),
  role TEXT NOT NULL,
  password TEXT NOT NULL DEFAULT '',
  closed TEXT NOT NULL DEFAULT '',
  created TEXT NOT NULL
) STRICT;
-- Links that work once: `purpose` is to sign in, or to choose a password.
CREATE TABLE sign_in_link (
  token_sha256 TEXT PRIMARY KEY,
  account INTEGER NOT NULL REFERENCES account ON DELETE CASCADE,
  purpose TEXT NOT NULL,
  expires TEXT NOT NULL,
  used TEXT
) STRICT;
-- One signed-in browser, from signing in until it is ended or left alone too long.
CREATE TABLE visit (
  id INTEGER PRIMARY KEY,
  token_sha256 TEXT NOT NULL UNIQUE,
  account INTEGER NOT NULL REFERENCES account ON DELETE CASCADE,
  begun TEXT NOT NULL,
  seen TEXT NOT NULL,
  address TEXT NOT NULL,
  browser TEXT NOT NULL,
  ended TEXT
) STRICT;
CREATE INDEX visit_of ON visit (account);
CREATE TABLE sign_in_attempt (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL COLLATE NOCASE,
  address TEXT NOT NULL,
  known INTEGER NOT NULL,
  succeeded INTEGER NOT NULL,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX attempt_of_name ON sign_in_attempt (name, at);
CREATE INDEX attempt_from ON sign_in_attempt (address, at);
-- What happened beside changes of records: accounts, exports, what was purged.
CREATE TABLE happening (
  id INTEGER PRIMARY KEY,
  at TEXT NOT NULL,
  "by" TEXT NOT NULL,
  what TEXT NOT NULL,
  about TEXT NOT NULL
) STRICT;
