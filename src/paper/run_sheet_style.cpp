#include "paper/run_sheet_style.h"

namespace ordinatio::inline paper {

std::string_view run_sheet_style() {
  return R"(:root {
  --desk: #39424a; --chalk: #f4f0e6; --paper: #f8f4e9; --slip: #eee7d6; --ink: #21272b; --soft: #565449; --rule: #d8cfba;
  --line: #7c7565; --madder: #8c2a20; --water: #1d5272;
  --slate: #4f5b63; --glass: #cfdedd; --wood: #c9a878; --brass: #c8ad5f; --other: #d5cfc0;
  --serif: "Iowan Old Style", Palatino, "Palatino Linotype", P052, "Noto Serif", Georgia, serif;
  --sans: system-ui, "Noto Sans", sans-serif;
  color-scheme: light dark;
}
@media (prefers-color-scheme: dark) {
  :root {
    --desk: #14181b; --chalk: #ece8dd; --paper: #22282c; --slip: #2c3338; --ink: #ebe6da; --soft: #b8b3a5;
    --rule: #3d464c; --line: #8d949a; --madder: #f2a597; --water: #9fcde4;
  }
}
* { box-sizing: border-box }
body { margin: 0; background: var(--desk); color: var(--ink); font: 1rem/1.5 var(--sans) }
header, main { max-width: 74rem; margin-inline: auto }
header { padding: 1rem 1.25rem; color: var(--chalk) }
h1, h2, h3, p, ul, ol, dl, dd, figure { margin: 0 }
h1, h2, h3, .words, .shop { font-family: var(--serif) }
h1, h2, h3 { font-weight: 600; line-height: 1.3; overflow-wrap: anywhere }
h1 { font-size: 1.9rem }
h1 time { display: block; font: italic 1.1rem var(--serif); color: var(--soft) }
h2 { font-size: 1.25rem; padding-bottom: .25rem; border-bottom: 3px double var(--line) }
h3 { font-size: 1.15rem }
ul { padding: 0; list-style: none }
a { color: var(--water); text-underline-offset: .18em; overflow-wrap: anywhere }
:focus-visible { outline: 3px solid var(--water); outline-offset: 2px }
.shop { letter-spacing: .16em; text-transform: uppercase; overflow-wrap: anywhere }
main { background: var(--paper); padding: 1.5rem 1rem 2.5rem; box-shadow: 0 2px var(--slip), 0 5px #0006 }
main > * + * { margin-top: 1.8rem }
section > * + * { margin-top: .65rem }
.by, .count, figcaption, dt { color: var(--soft) }
.by, figcaption, .files { font-size: .9rem }
.count { font-weight: 400 }
.number { font-variant-numeric: lining-nums tabular-nums; overflow-wrap: anywhere }
.words { font-size: 1.08rem; line-height: 1.35; overflow-wrap: anywhere }
.watch, .about { color: var(--madder); overflow-wrap: anywhere }
code { font: .95rem ui-monospace, "Noto Sans Mono", monospace; overflow-wrap: anywhere }
.first ol { padding-inline-start: 1.6rem }
.first li { padding: .3rem 0 }
.first li:first-child > p:first-child { font: 600 1.2rem/1.4 var(--serif) }
.first li::marker { font-weight: 600 }
.parts { columns: 24rem 2; column-gap: 1.2rem }
.parts:empty { display: none }
.slip { background: var(--slip); padding: .9rem 1rem; border-inline-start: 4px solid var(--line); break-inside: avoid }
.parts > .slip { margin: 0 0 1.2rem }
.urgent { border-color: var(--madder) }
.entries > li + li { border-top: 1px dotted var(--line); margin-top: .6rem; padding-top: .6rem }
.entries .brief { display: flex; flex-wrap: wrap; gap: 0 .7rem; align-items: baseline }
.entries > .brief + .brief { margin-top: .2rem; padding-top: .2rem }
.bed-part { padding-top: .8rem }
.bed-part + .bed-part { border-top: 1px solid var(--rule); margin-top: 2rem; padding-top: 1.6rem }
.bed { display: block; width: 100%; height: auto; max-height: 70vh }
.bed .table { fill: #fffdf6; stroke: #7c7565; stroke-width: .4 }
.bed .pocket { fill: none; stroke: #a19a89; stroke-width: .3; stroke-dasharray: 1 1 }
.bed .piece { stroke: #21272b; stroke-width: .4 }
.bed .ink { fill: #21272b; fill-opacity: .55 }
.bed .line { fill: none; stroke: #21272b; stroke-width: .3; stroke-opacity: .55 }
.bed .mark { fill: none; stroke: #8c2a20; stroke-width: .5 }
.bed .slate .piece { fill: var(--slate) }
.bed .glass .piece { fill: var(--glass) }
.bed .wood .piece { fill: var(--wood) }
.bed .brass .piece { fill: var(--brass) }
.bed .other .piece { fill: var(--other) }
.bed .slate .ink { fill: #fff }
.bed .slate .line { stroke: #fff }
.bed text { font-family: var(--sans); font-weight: 600; fill: #21272b; stroke: #fffdf6; stroke-width: 2; paint-order: stroke; stroke-linejoin: round }
.pockets li { display: flex; gap: .7rem; align-items: baseline; padding: .45rem 0; border-bottom: 1px solid var(--rule); break-inside: avoid }
.pockets li > div { min-width: 0 }
.tick { flex: none; width: 1rem; height: 1rem; border: 1.5px solid var(--ink); align-self: start; margin-top: .3rem }
.pocket-number { flex: none; min-width: 2rem; font: 600 1.15rem var(--serif); text-align: end }
.files a { margin-inline-end: .6rem }
.counts { columns: 14rem auto }
.counts div { display: flex; justify-content: space-between; padding: .3rem 0; border-bottom: 1px solid var(--rule); break-inside: avoid }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap }
@media (min-width: 48rem) {
  main { padding: 2rem 2.5rem 3rem }
  .pockets { columns: 2; column-gap: 2.5rem }
}
@media screen and (min-width: 62rem) {
  .bed-row { display: grid; grid-template-columns: minmax(0, 3fr) minmax(0, 2fr); gap: 2rem; align-items: start }
  .pockets { columns: 1 }
  .bed-row > * { margin-top: 0 }
}
@media print {
  @page { margin: 14mm }
  :root { --paper: #fff; --slip: #fff; --ink: #000; --soft: #444; --rule: #bbb; --line: #777; --madder: #7a1f17; --water: #000; --chalk: #000; color-scheme: light }
  body { background: none; font-size: 11pt }
  header { padding: 0 0 3mm }
  main { padding: 0; box-shadow: none }
  h2, h3 { break-after: avoid }
  .parts { display: block }
  .slip, .parts > .slip { padding: 0 0 0 3mm; margin: 6mm 0 0; break-inside: auto }
  .beds { break-before: page }
  .bed { max-height: 120mm }
  .bed .piece { fill: none !important }
  .bed .slate .ink { fill: #000 }
  .bed .slate .line { stroke: #000 }
  .bed .ink, .bed .line { opacity: .5 }
  .bed-part, .bed-part + .bed-part { border: 0; margin: 0; padding: 0 }
  .beds > h2 + .bed-part { margin-top: 4mm }
  .bed-part + .bed-part { break-before: page }
  .pockets { columns: 2; column-gap: 8mm }
  .entries > li, figure { break-inside: avoid }
  a { text-decoration: none }
}
)";
}

}  // namespace ordinatio::inline paper
