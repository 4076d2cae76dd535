#include "web/plain_page.h"

namespace ohmstead::web::plain_page {

namespace {

constexpr std::string_view kStyle = R"css(
html:not(.live) body { margin: 0; background: #fbfaf6; color: #14211f; }
#paper { font: 1.0625rem/1.5 system-ui, "Liberation Sans", Arial, sans-serif; max-width: 46rem; margin: 0 auto; padding: 1rem; overflow-wrap: anywhere; }
#paper h1 { font-size: 1.8rem; line-height: 1.15; margin: .5rem 0; }
#paper h2 { font-size: 1.4rem; line-height: 1.2; margin: 2.5rem 0 .6rem; padding-top: .5rem; border-top: 4px solid; }
#paper h3 { font-size: 1.15rem; line-height: 1.25; margin: 1.6rem 0 .3rem; }
#paper h4 { font-size: 1rem; margin: .9rem 0 .2rem; }
#paper p, #paper ul, #paper ol { margin: .4rem 0; }
#paper ul, #paper ol { padding-left: 1.5rem; }
#paper li { margin: .3rem 0; }
#paper a { color: #0c564c; text-underline-offset: .18em; }
#paper nav li { margin: 0; }
#paper nav a { display: block; padding: .35rem 0; }
#paper figure { margin: 1rem 0; break-inside: avoid; }
#paper img { max-width: 100%; display: block; }
#paper .p-wide { columns: 11rem; }
#paper .p-note { color: #43524d; font-weight: 400; font-size: .95rem; }
#paper .p-answer { font-weight: 600; }
#paper .p-danger { border: 3px solid; padding: .5rem .7rem; font-weight: 700; }
#paper .p-danger::before { content: "DANGER. "; }
#paper .p-caution { border-left: 6px double; padding-left: .6rem; }
#paper .p-digest { font-size: .85rem; }
#paper table { border-collapse: collapse; width: 100%; margin: .5rem 0; }
#paper caption { text-align: left; font-weight: 700; padding: .4rem 0; }
#paper th, #paper td { text-align: left; vertical-align: top; padding: .35rem .5rem .35rem 0; border-top: 1px solid #8b968f; }
#paper thead th { border-top: 0; border-bottom: 2px solid; font-size: .9rem; overflow-wrap: normal; }
#paper tbody th { font-weight: 600; }
#paper .p-room { table-layout: fixed; hyphens: auto; }
#paper .p-room thead th:first-child { width: 37%; }
#paper .p-room .p-more td { border-top: 0; padding-top: 0; }
#paper .p-scroll { overflow-x: auto; }
#paper .p-panel th, #paper .p-panel td { border: 1px solid #8b968f; padding: .3rem .4rem; }
#paper .p-space { font-weight: 700; min-width: 2rem; }
#paper .p-feeds { min-width: 6rem; hyphens: auto; }
#paper .p-feeds .p-number { font-weight: 400; color: #43524d; }
#paper .p-empty { color: #43524d; font-style: italic; }
#paper .p-number { white-space: nowrap; }
#paper .p-leg th { min-width: 8rem; }
#paper .p-leg .p-number { white-space: normal; }
#paper details { margin: .2rem 0 .6rem; }
#paper summary { padding: .6rem 0; cursor: pointer; }
#paper details[open] { border-left: 3px solid #8b968f; padding-left: .8rem; }
@media screen and (max-width: 24rem) {
  #paper .p-panel { font-size: .85rem; }
  #paper .p-panel th, #paper .p-panel td { padding: .25rem; }
  #paper .p-space, #paper .p-feeds { min-width: 0; }
}
@media (prefers-color-scheme: dark) {
  html:not(.live) body { background: #0b0f0e; color: #d6cdb8; }
  html:not(.live) #paper a { color: #d3a14a; }
  html:not(.live) #paper .p-note, html:not(.live) #paper .p-empty, html:not(.live) #paper .p-feeds .p-number { color: #a59e8c; }
}
@page { margin: 15mm; }
@media print {
  html.live #app { display: none; }
  html.live #paper { display: block; }
  html body, html.live body { background: #fff !important; color: #000 !important; }
  html #paper { max-width: none; padding: 0; font-size: 10pt; }
  html #paper a { color: #000 !important; text-decoration: none; }
  html #paper .p-note, html #paper .p-empty, html #paper .p-feeds .p-number { color: #000 !important; }
  #paper nav { display: none; }
  #paper h2 { break-after: avoid; margin-top: 1.2rem; }
  #paper h3, #paper h4, #paper caption, #paper summary { break-after: avoid; }
  #paper thead { display: table-header-group; }
  #paper tr, #paper li, #paper p, #paper .p-room tbody { break-inside: avoid; }
  #paper .p-room tr:first-child { break-after: avoid; }
  #paper th, #paper td { padding-top: .15rem; padding-bottom: .15rem; }
  #paper details .p-note { display: none; }
  #paper .p-scroll { overflow: visible; }
  #paper details::details-content { content-visibility: visible; block-size: auto; display: block; }
  #paper summary { list-style: none; padding: .2rem 0; }
  #paper .p-room summary { display: none; }
  #paper details { font-size: 8pt; line-height: 1.35; margin: 0 0 .2rem; }
  #paper details p, #paper details ul, #paper details h4 { margin: 0; font-size: 8pt; }
  #paper details h4 { display: inline; }
  #paper details h4 + p { display: inline; }
  #paper details h4::after { content: ": "; }
  #paper details ul { padding: 0; }
  #paper details li { display: inline; }
  #paper details li:not(:last-child)::after { content: "; "; }
  #paper details a { text-decoration: none; }
}
)css";

}  // namespace

std::string_view plain_style() { return kStyle; }

}  // namespace ohmstead::web::plain_page
