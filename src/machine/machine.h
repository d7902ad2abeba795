// In: a sheet, and how the workshop's machine moves.
// Out: the order of the work, from sheet_order.h.
// Never: changes what is drawn, or writes a file.
#pragma once
