#include "html_style.hpp"

namespace padwalk::report
{

// Every pair of text and ground has a contrast of at least 4.5 to 1, in light and in dark; html_test.cpp computes it.
std::string_view html_style()
{
    return R"css(
:root {
  color-scheme: light dark;
  --paper: #fbfaf5; --ink: #1d2733; --faint: #566270; --rule: #c9d3dc; --accent: #a3311c; --wash: #f6e9e2;
}
@media (prefers-color-scheme: dark) {
  :root { --paper: #171b20; --ink: #e4e8eb; --faint: #a3afba; --rule: #37424d; --accent: #ff9c82; --wash: #2b2020; }
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body {
  margin: 0; background: var(--paper); color: var(--ink);
  font: 1rem/1.5 "Source Sans 3", "Segoe UI", "Helvetica Neue", "Liberation Sans", Arial, sans-serif;
  overflow-wrap: anywhere;
}
main { max-width: 62rem; margin: 0 auto; padding: 1.25rem 1rem 3rem; }
h1, h2, h3 { font-family: "Iowan Old Style", "Palatino Linotype", Palatino, "Liberation Serif", Georgia, serif; line-height: 1.25; margin: 0; }
h1 { font-size: 1.9rem; font-weight: 600; }
h2 { font-size: 1.2rem; font-weight: 600; }
h3 { font-size: 1.08rem; font-weight: 700; }
p { margin: 0 0 .4rem; max-width: 44rem; }
ul { margin: 0; padding-left: 1.1rem; }
li { margin: 0 0 .2rem; }
header p { color: var(--faint); margin: .15rem 0 0; }
header { padding-bottom: 1rem; }
section { border-top: 2px solid var(--ink); padding: .9rem 0 1.4rem; }
section > h2 { margin-bottom: .7rem; }
.answer p { font-size: 1.15rem; line-height: 1.45; }
.card { border-top: 1px solid var(--rule); padding: .7rem 0 .8rem; }
h2 + div > .card:first-child { border-top: 0; padding-top: 0; }
.tag { margin: .1rem 0 .45rem; color: var(--faint); }
.card > h3 .number { color: var(--accent); margin-right: .45rem; }
.share { display: block; margin: -.2rem 0 .6rem; max-width: 16rem; width: 100%; height: .5rem; }
.share .whole { fill: none; stroke: var(--faint); stroke-width: 1; vector-effect: non-scaling-stroke; }
.share .part { fill: var(--ink); }
dl { margin: 0; }
.card > h3 + dl { margin-top: .45rem; }
dt { color: var(--faint); font-size: .9rem; }
dd { margin: 0 0 .45rem; }
ul { list-style: "– " outside; }
dd ul { padding-left: .85rem; }
.danger > h2, .danger h3, .danger dt.danger, td.danger, dt.danger { color: var(--accent); }
.danger dt.danger, dt.danger, td.danger { font-weight: 700; }
section.danger { border: 2px solid var(--accent); border-left-width: .6rem; background: var(--wash); padding: .9rem 1rem 1rem; margin-bottom: 1.4rem; }
section.danger .tag, section.danger dt { color: var(--ink); }
section.danger dt.danger { color: var(--accent); }
section.danger .card { border-top-color: var(--accent); }
table { border-collapse: collapse; width: 100%; table-layout: fixed; }
.loops table, .heaters table { table-layout: auto; }
.loops td, .heaters td { overflow-wrap: normal; }
caption { text-align: left; color: var(--faint); padding-bottom: .35rem; }
th, td { text-align: left; vertical-align: top; padding: .35rem .8rem .4rem 0; border-bottom: 1px solid var(--rule); font-variant-numeric: tabular-nums; }
th:last-child, td:last-child { padding-right: 0; }
thead th:first-child { width: 28%; }
thead th { color: var(--faint); font-weight: 400; font-size: .9rem; border-bottom-color: var(--ink); }
tbody th { font-weight: 600; }
td small, th small { display: block; color: var(--faint); font-size: .87rem; font-weight: 400; }
.quiet { color: var(--faint); }
.loops table, .heaters table, .vents table { margin-bottom: 1rem; }
.warmings figure + ul { margin-bottom: .9rem; }
figure { margin: 1rem 0 1.1rem; max-width: 27rem; }
figcaption { color: var(--faint); font-size: .9rem; padding-top: .5rem; }
.drawing { display: block; width: 100%; height: auto; font-size: 12.5px; }
.drawing .word { fill: var(--ink); }
.drawing .quiet { fill: var(--faint); }
.drawing text.alert { fill: var(--accent); }
.drawing .haloed { paint-order: stroke; stroke: var(--paper); stroke-width: 4; stroke-linejoin: round; }
.drawing .part { fill: var(--paper); stroke: var(--ink); stroke-width: 2; }
.drawing .part.thin { stroke-width: 1.25; }
.drawing .assumed { stroke-dasharray: 5 3.5; }
.drawing .pipe { fill: none; stroke: var(--ink); stroke-width: 3; stroke-linejoin: round; }
.drawing .edge { fill: none; stroke: var(--ink); stroke-width: 1.6; stroke-linejoin: round; stroke-linecap: round; }
.drawing .mesh { stroke-dasharray: 1 3.5; stroke-width: 2; }
.drawing .fine { fill: none; stroke: var(--faint); stroke-width: 1; }
.drawing .grid { stroke: var(--rule); stroke-width: 1; }
.drawing .solid { fill: var(--ink); }
.drawing .solid.alert { fill: var(--accent); }
.drawing .edge.alert { stroke: var(--accent); stroke-width: 2; }
.drawing .broken { stroke-dasharray: 2 3.5; }
.drawing .box.alert { fill: var(--wash); stroke: var(--accent); stroke-width: 1.5; stroke-dasharray: 6 3; }
.drawing .allowed { fill: var(--rule); }
.drawing .band { fill: var(--rule); fill-opacity: .55; }
.drawing .line { fill: none; stroke: var(--ink); stroke-width: 2.5; stroke-linejoin: round; }
.drawing .line.taken { stroke: var(--faint); stroke-width: 2; }
footer { border-top: 1px solid var(--rule); padding-top: .8rem; color: var(--faint); font-size: .9rem; }
@media (min-width: 48rem) {
  main { padding: 2.2rem 2rem 4rem; }
  section:not(.danger) { display: grid; grid-template-columns: 11rem minmax(0, 1fr); }
  section:not(.danger) > h2 { padding-right: 1.2rem; }
  section:not(.danger) > div { border-left: 1px solid var(--accent); padding-left: 1.4rem; }
  .card dl { display: grid; grid-template-columns: 9.5rem minmax(0, 1fr); column-gap: .8rem; }
  header, footer { padding-left: calc(11rem + 1.4rem + 1px); }
  figure { display: inline-block; vertical-align: top; width: 49%; }
  figure + figure { margin-left: 2%; width: 48%; }
}
@media (max-width: 30rem) {
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  table, caption, tbody, tr, td, tbody th { display: block; width: auto; border: 0; padding: 0; }
  tr { border-bottom: 1px solid var(--rule); padding: .4rem 0 .5rem; }
  .loops td, .heaters td { display: inline; }
  .loops td + td::before, .heaters td + td::before { content: "; "; font-weight: 400; color: var(--ink); }
}
@page { margin: 13mm 14mm; }
@media print {
  :root { color-scheme: light; --paper: #fff; --ink: #000; --faint: #444; --rule: #bbb; --accent: #8f2413; --wash: #fff; }
  html { font-size: 9pt; }
  body { line-height: 1.35; }
  main { max-width: none; padding: 0; }
  p { max-width: none; margin-bottom: .2rem; }
  h1 { font-size: 1.6rem; }
  header { padding-bottom: .4rem; }
  section { padding: .35rem 0 .5rem; border-top-width: 1px; }
  section.danger { padding: .4rem .7rem .5rem; margin-bottom: .6rem; box-decoration-break: clone; -webkit-box-decoration-break: clone; }
  section:not(.danger) { display: block; }
  section:not(.danger) > div { border-left: 0; padding-left: 0; }
  section > h2 { margin-bottom: .2rem; }
  .answer p { font-size: 1.1rem; }
  .card { padding: .25rem 0 .2rem; }
  .card h3, .tag { display: inline; margin: 0; font-size: 1rem; }
  h3 + .tag::before { content: " – "; }
  .share { display: none; }
  dl, .card dl, .card > h3 + dl { display: block; margin: 0; }
  dt { display: inline; font-size: 1rem; font-weight: 600; }
  dt::after { content: ": "; }
  dd { display: inline; margin: 0; }
  dd::after { content: " "; }
  dd:has(ul), dd ul { display: block; }
  li { margin: 0; }
  th, td { padding: .12rem .6rem .15rem 0; }
  td small, th small { display: inline; }
  header, footer { padding-left: 0; }
  footer { padding-top: .3rem; }
  thead { display: table-header-group; }
  figure { display: inline-block; vertical-align: top; width: 49%; margin: .5rem 0; }
  .drawing { max-height: 230mm; } /* on one page, of either size of paper */
  figure + figure { margin-left: 1%; }
  tr, li, .answer, .card, figure { break-inside: avoid; }
  h2, h3, .tag, dt, caption, thead { break-after: avoid; }
  h2 + div > :first-child, tbody tr:first-child { break-before: avoid; }
  p { orphans: 3; widows: 3; }
}
)css";
}

} // namespace padwalk::report
