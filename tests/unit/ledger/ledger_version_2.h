// A ledger of version 2, as the program of that version made it: two orders on a sheet, a pocket of which is engraved; a later
// export with a question and a new order.
#pragma once

namespace ordinatio {

inline constexpr const char* rows_of_version_2 = R"sql(
INSERT INTO entry VALUES (1, '2026-11-02T08:00:00Z', 'intake', 'intake monday.csv', NULL);
INSERT INTO entry VALUES (2, '2026-11-02T09:00:00Z', 'day', 'day --no-dxf --no-pdf', NULL);
INSERT INTO entry VALUES (3, '2026-11-02T10:00:00Z', 'engraving', 'engraved 1 --pockets 1', NULL);
INSERT INTO entry VALUES (4, '2026-11-03T08:00:00Z', 'intake', 'intake tuesday.csv', NULL);
INSERT INTO change VALUES (1, 1, 'item', 1, '~new', NULL, 'monday.csv:2');
INSERT INTO change VALUES (2, 1, 'item', 2, '~new', NULL, 'monday.csv:4');
INSERT INTO change VALUES (3, 1, 'item', 3, '~new', NULL, 'monday.csv:4');
INSERT INTO change VALUES (4, 2, 'sheet', 1, '~new', NULL, 'day, 3 in it');
INSERT INTO change VALUES (5, 2, 'placement', 1, '~new', NULL, 'on sheet');
INSERT INTO change VALUES (6, 2, 'item', 1, 'state', 'received', 'on sheet');
INSERT INTO change VALUES (7, 2, 'item', 1, '~place', NULL, 'sheet-001, pocket 1');
INSERT INTO change VALUES (8, 2, 'placement', 2, '~new', NULL, 'on sheet');
INSERT INTO change VALUES (9, 2, 'item', 2, 'state', 'received', 'on sheet');
INSERT INTO change VALUES (10, 2, 'item', 2, '~place', NULL, 'sheet-001, pocket 2');
INSERT INTO change VALUES (11, 2, 'placement', 3, '~new', NULL, 'on sheet');
INSERT INTO change VALUES (12, 2, 'item', 3, 'state', 'received', 'on sheet');
INSERT INTO change VALUES (13, 2, 'item', 3, '~place', NULL, 'sheet-001, pocket 3');
INSERT INTO change VALUES (14, 3, 'placement', 1, 'state', 'on sheet', 'engraved');
INSERT INTO change VALUES (15, 3, 'item', 1, 'state', 'on sheet', 'engraved');
INSERT INTO change VALUES (16, 3, 'sheet', 1, '~engraved', NULL, '1');
INSERT INTO change VALUES (17, 4, 'question', 1, '~new', NULL, 'order 2101 (tuesday.csv:2) has "Ada Wren␍ / 1932", and the ledger has "Ada Wren␍ / 1931" in a line that the file lacks: is it that line, changed');
INSERT INTO change VALUES (18, 4, 'item', 4, '~new', NULL, 'tuesday.csv:5');
INSERT INTO export VALUES ('f7b2b02d086a9b7c71664af9ae948359a49f09052c69a18e0994b4430b07e3a2', 'monday.csv', 1);
INSERT INTO export VALUES ('f6b75a285c6a833364922567a1017ca46e195db445ec527f682a6e3e7e8f45b4', 'tuesday.csv', 4);
INSERT INTO line VALUES (1, '2101', 0, 'b6ce054f8d39303bd26e98c77646565f', 1, '6bf819000ba199ec17eb7f1ba173b8b8');
INSERT INTO line VALUES (2, '2102', 0, '216ba83ec99b1783c85416833e55cf5b', 1, '2fc1e205a3a9e0051704131e5749d7c8');
INSERT INTO line VALUES (3, '2103', 0, '26b944771389642fe2c23f800a6aa5ba', 1, 'ef95c57f949fc5bc0e93fd15c41818de');
INSERT INTO line_version VALUES (1, '6bf819000ba199ec17eb7f1ba173b8b8', 'b6ce054f8d39303bd26e98c77646565f', 1);
INSERT INTO line_version VALUES (2, '2fc1e205a3a9e0051704131e5749d7c8', '216ba83ec99b1783c85416833e55cf5b', 1);
INSERT INTO line_version VALUES (3, 'ef95c57f949fc5bc0e93fd15c41818de', '26b944771389642fe2c23f800a6aa5ba', 1);
INSERT INTO item VALUES (1, '2101-1', 1, '2101', 1, 'Ada Wren' || char(13, 10) || '1931', 'Ada Wren' || char(13, 10) || '1931', '', '', 'for the shed', 'monday.csv:2', 'engraved', '', '', 0, '', '', '');
INSERT INTO item VALUES (2, '2102-1', 2, '2102', 1, 'Otter Pool', 'Otter Pool', '', '', '', 'monday.csv:4', 'on sheet', '', '', 0, '', '', '');
INSERT INTO item VALUES (3, '2102-2', 2, '2102', 2, 'Otter Pool', 'Otter Pool', '', '', '', 'monday.csv:4', 'on sheet', '', '', 0, '', '', '');
INSERT INTO item VALUES (4, '2103-1', 3, '2103', 1, 'New Wheel', 'New Wheel', '', '', '', 'tuesday.csv:5', 'received', '', '', 0, '', '', '');
INSERT INTO sheet VALUES (1, 'sheet-001', 'day', NULL, '', 'out/sheets', 'written');
INSERT INTO sheet_file VALUES (1, 'sheet-001.json', '9b12f8a7f595fe5c7e2ebf9b54b071b7c0cd9f19966fb0763fae9ae881d10a3b');
INSERT INTO sheet_file VALUES (1, 'sheet-001.svg', '6b93da2b773c86759ad46df3be5e024627593e44e816c4e110028b8eb759567e');
INSERT INTO placement VALUES (1, 1, 1, 1, NULL, '49981409ee4750bb9895d8a225f9a7bccc838cccd43a44e88eb0e4d7a753ff01', 'engraved', '');
INSERT INTO placement VALUES (2, 1, 2, 2, NULL, '3cb50286c4adfde9f603a3badd535660856e579265d26b9981a4762171573a57', 'on sheet', '');
INSERT INTO placement VALUES (3, 1, 3, 3, NULL, '3cb50286c4adfde9f603a3badd535660856e579265d26b9981a4762171573a57', 'on sheet', '');
INSERT INTO question VALUES (1, 'edit', 1, 'dbb452cdf8d0e0adeeed0691e08b8f9b', '{"order":"2101","line":"","text":"Ada Wren\r\n1932","texts":[],"quantity":1,"design":"","blanks":[],"wish":"","note":"for the shed","cancelled":false,"source":"tuesday.csv:2","occurrence":1}', 'order 2101 (tuesday.csv:2) has "Ada Wren␍ / 1932", and the ledger has "Ada Wren␍ / 1931" in a line that the file lacks: is it that line, changed', 'open');
)sql";

}  // namespace ordinatio
