// A ledger of version 4, as the program of that version made it: three items on a sheet, the words of one corrected, a pocket
// engraved.
#pragma once

namespace ordinatio {

inline constexpr const char* rows_of_version_4 = R"sql(
INSERT INTO entry VALUES(1,'2026-11-02T08:00:00Z','intake','intake m.csv',NULL);
INSERT INTO entry VALUES(2,'2026-11-02T08:10:00Z','correction','correct 2202-2 --text "Ada Wren / 1931"',NULL);
INSERT INTO entry VALUES(3,'2026-11-02T09:00:00Z','day','day --no-dxf --no-pdf',NULL);
INSERT INTO entry VALUES(4,'2026-11-02T10:00:00Z','engraving','engraved 1 --pockets 1',NULL);
INSERT INTO change VALUES(1,1,'item',1,'~new',NULL,'m.csv:2');
INSERT INTO change VALUES(2,1,'item',2,'~new',NULL,'m.csv:3');
INSERT INTO change VALUES(3,1,'item',3,'~new',NULL,'m.csv:3');
INSERT INTO change VALUES(4,2,'item',3,'words','Ada Wren','Ada Wren / 1931');
INSERT INTO change VALUES(5,3,'sheet',1,'~new',NULL,'day, 3 in it');
INSERT INTO change VALUES(6,3,'placement',1,'~new',NULL,'on sheet');
INSERT INTO change VALUES(7,3,'item',1,'state','received','on sheet');
INSERT INTO change VALUES(8,3,'item',1,'~place',NULL,'sheet-001, pocket 1');
INSERT INTO change VALUES(9,3,'placement',2,'~new',NULL,'on sheet');
INSERT INTO change VALUES(10,3,'item',2,'state','received','on sheet');
INSERT INTO change VALUES(11,3,'item',2,'~place',NULL,'sheet-001, pocket 2');
INSERT INTO change VALUES(12,3,'placement',3,'~new',NULL,'on sheet');
INSERT INTO change VALUES(13,3,'item',3,'state','received','on sheet');
INSERT INTO change VALUES(14,3,'item',3,'~place',NULL,'sheet-001, pocket 3');
INSERT INTO change VALUES(15,4,'placement',1,'state','on sheet','engraved');
INSERT INTO change VALUES(16,4,'item',1,'state','on sheet','engraved');
INSERT INTO change VALUES(17,4,'sheet',1,'~engraved',NULL,'1');
INSERT INTO export VALUES('d69c9d89cf45ad7151410e0d619a4fd237d8d50c70e5aaa42d199155624312dd','m.csv',1);
INSERT INTO line VALUES(1,'2201',0,'c0ab22242cfee89ae9ff868910c39398',1,'2867c4a4d208e21a530745d7d58c72b9',0);
INSERT INTO line VALUES(2,'2202',0,'762ce42d8f83ac45fccb38846d2ee13b',1,'571238311f01a40267bddf17fc71ccc1',0);
INSERT INTO line_version VALUES(1,'2867c4a4d208e21a530745d7d58c72b9','c0ab22242cfee89ae9ff868910c39398',1);
INSERT INTO line_version VALUES(2,'571238311f01a40267bddf17fc71ccc1','762ce42d8f83ac45fccb38846d2ee13b',1);
INSERT INTO item VALUES(1,'2201-1',1,'2201',1,'Otter Pool','Otter Pool','','','','m.csv:2','engraved','','',0,'','','','');
INSERT INTO item VALUES(2,'2202-1',2,'2202',1,'Ada Wren','Ada Wren','','','','m.csv:3','on sheet','','',0,'','','','');
INSERT INTO item VALUES(3,'2202-2',2,'2202',2,'Ada Wren','Ada Wren / 1931','','','','m.csv:3','on sheet','','',0,'','','','');
INSERT INTO sheet VALUES(1,'sheet-001','day',NULL,'','out/sheets','written','');
INSERT INTO sheet_file VALUES(1,'sheet-001.json','04fbdaf0b2df6fbdb5b44751f75104dfe27ac08f4a8aedd5cd9548554104798a');
INSERT INTO sheet_file VALUES(1,'sheet-001.svg','2e0cb0ce22658620defdd25c176af3af8c453104b4c5ae579f72e9658d8888f3');
INSERT INTO placement VALUES(1,1,1,1,NULL,'41e5e97b5d04b98346ab5c5116c48586ae81dfc87827bdf7394929ebbdf02244','engraved','',1);
INSERT INTO placement VALUES(2,1,2,2,NULL,'fd9a50d1c1589970e4bc06ffa3cf6f2b08c4cd87c33de842d8f0ac564186e48e','on sheet','',1);
INSERT INTO placement VALUES(3,1,3,3,NULL,'b8b00bcdecdd728f392c817085a24d40b25a49dbd2e1464d17852e5b86202740','on sheet','',1);
INSERT INTO account VALUES(1,'intake m.csv' || char(10) || 'd69c9d89cf45ad7151410e0d619a4fd237d8d50c70e5aaa42d199155624312dd','{"told":["m.csv: 3 new items of 2 new orders"],"files":[],"sheets":0,"items_set":0,"held":[],"warnings":[],"notes":["m.csv: read as UTF-8; all of it is ASCII","m.csv: fields parted by \",\", told from its first rows","m.csv: no column \"Status\": no row is taken for cancelled"],"smallest_cap_height":0.0,"smallest_item":"","smallest_is_numbered":false}',1);
INSERT INTO account VALUES(2,'correct 2202-2 --text "Ada Wren / 1931"','{"told":["2202-2/Y \"Ada Wren\"","2202-2 says \"Ada Wren / 1931\", before \"Ada Wren\""],"files":[],"sheets":0,"items_set":0,"held":[],"warnings":[],"notes":[],"smallest_cap_height":0.0,"smallest_item":"","smallest_is_numbered":false}',1);
INSERT INTO account VALUES(3,'day --no-dxf --no-pdf','{"told":[],"files":["out/sheets/sheet-001.json","out/sheets/sheet-001.svg"],"sheets":1,"items_set":3,"held":[],"warnings":[],"notes":["orders.csv is not taken in: with a ledger that is asked for, ordinatio intake orders.csv"],"smallest_cap_height":16.580872467022907,"smallest_item":"2202-2","smallest_is_numbered":true}',1);
INSERT INTO account VALUES(4,'engraved 1 --pockets 1','{"told":["sheet-001: 1 item engraved, 2 still on it"],"files":[],"sheets":0,"items_set":0,"held":[],"warnings":[],"notes":[],"smallest_cap_height":0.0,"smallest_item":"","smallest_is_numbered":false}',1);
)sql";

}  // namespace ordinatio
