#include "render/document/page_template.h"

namespace leat::render::report {

namespace {

// Type is large and dark on white, greys are never lighter than #595959 (7 to 1 on white). Severity
// is a word and a border of its own weight, so that a grey print says the same. Tables may be
// scrolled sideways on a phone; on paper they break inside words rather than run off the sheet. No
// grid: other printers of HTML do not know it.
constexpr std::string_view text = R"html(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'">
<link rel="icon" href="data:,">
<title>{{page_title}}</title>
<style>
html { font: 18px/1.5 "DejaVu Sans", Verdana, sans-serif; color: #1a1a1a; background: #fff; }
body { margin: 0 auto; padding: 1rem 1.2rem 3rem; max-width: 62rem; overflow-wrap: break-word; }
h1 { font-size: 2rem; line-height: 1.2; margin: 1rem 0 0.3rem; }
h2 { font-size: 1.45rem; line-height: 1.25; margin: 3rem 0 0.8rem; border-bottom: 3px solid #1a1a1a; padding-bottom: 0.2rem; }
h3 { font-size: 1.15rem; margin: 2rem 0 0.5rem; }
p, li, dd { max-width: 46rem; }
a { color: #003e6b; }
a:focus-visible, .wide:focus-visible { outline: 3px solid #003e6b; outline-offset: 2px; }
nav ul { padding-left: 1.2rem; }
nav li { padding: 0.15rem 0; }
dl { margin: 0; }
dt { font-weight: bold; margin-top: 0.6rem; }
dd { margin: 0; }
@media print, (min-width: 48rem) {
  .fact { display: flex; break-inside: avoid; }
  dt { flex: none; width: 13rem; padding-right: 1rem; }
  dd { margin-top: 0.6rem; }
}
.wide { overflow-x: auto; margin: 1.2rem 0; }
table { border-collapse: collapse; font-size: 0.9rem; }
caption { text-align: left; font-weight: bold; padding-bottom: 0.3rem; }
th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.7rem 0.25rem 0; border-bottom: 1px solid #8c8c8c; font-variant-numeric: tabular-nums; }
thead th { vertical-align: bottom; border-bottom: 2px solid #1a1a1a; }
tbody th { font-weight: normal; min-width: 7rem; }
.right { text-align: right; }
ul.findings { list-style: none; padding: 0; }
ul.findings li { margin: 0.7rem 0; padding: 0.1rem 0 0.1rem 0.8rem; border-left: 2px solid #8c8c8c; }
ul.findings li.caution { border-left: 6px solid #1a1a1a; }
ul.findings li.danger { border-left: 9px double #8a1500; }
ul.findings b { text-transform: uppercase; font-size: 0.85em; letter-spacing: 0.04em; }
li.danger b { color: #8a1500; }
.picture { margin: 1.2rem 0; }
.picture svg { display: block; width: 100%; height: auto; }
pre { font: 0.8rem/1.45 "DejaVu Sans Mono", monospace; background: #f4f4f4; padding: 0.8rem; white-space: pre-wrap; overflow-wrap: anywhere; }
.line { margin: 2.4rem 0 0; max-width: 30rem; border-top: 1px solid #1a1a1a; padding-top: 0.2rem; font-size: 0.9rem; }
@media (max-width: 40rem) {
  html { font-size: 17px; }
  body { padding: 0.5rem 0.8rem 2rem; }
  h1 { font-size: 1.6rem; }
  .picture svg { min-width: 44rem; }
}
@page { margin: 16mm 15mm; }
@page lying { size: landscape; margin: 12mm; }
@media print {
  html { font-size: 10pt; line-height: 1.4; }
  body { margin: 0; padding: 0; max-width: none; }
  h2 { margin-top: 2rem; }
  h1, h2, h3, caption { break-after: avoid; }
  tr, li, dt, .picture, .line { break-inside: avoid; }
  thead { display: table-header-group; }
  .wide { overflow: visible; }
  table { max-width: 100%; }
  th, td { padding-right: 0.5rem; overflow-wrap: anywhere; }
  thead th { overflow-wrap: normal; }
  a { color: inherit; text-decoration: none; }
  pre { background: none; border: 1px solid #8c8c8c; font-size: 8pt; }
  #schematic { page: lying; }
  .picture svg { min-width: 0; max-height: 240mm; }
  #schematic svg { max-height: 150mm; }
}
</style>
</head>
<body>
<header>
<h1>{{page_title}}</h1>
<p>Water report of {{page_date}}. {{colophon}}</p>
</header>
<nav aria-label="Chapters">
<ul>
{{#chapters}}
<li><a href="#{{chapter_id}}">{{chapter_title}}</a></li>
{{/chapters}}
</ul>
</nav>
<main>
{{#chapters}}
<section id="{{chapter_id}}" aria-labelledby="{{chapter_id}}-title">
<h2 id="{{chapter_id}}-title">{{chapter_title}}</h2>
{{#blocks}}
{{#is_paragraph}}
<p>{{block_text}}</p>
{{/is_paragraph}}
{{#is_subheading}}
<h3>{{block_text}}</h3>
{{/is_subheading}}
{{#is_facts}}
<dl>
{{#facts}}
<div class="fact">
<dt>{{fact_name}}</dt>
<dd>{{fact_text}}</dd>
</div>
{{/facts}}
</dl>
{{/is_facts}}
{{#is_numbered}}
<ol>
{{#items}}
<li>{{item_text}}</li>
{{/items}}
</ol>
{{/is_numbered}}
{{#is_unnumbered}}
<ul>
{{#items}}
<li>{{item_text}}</li>
{{/items}}
</ul>
{{/is_unnumbered}}
{{#is_findings}}
<ul class="findings">
{{#findings}}
<li class="{{finding_word}}"><b>{{finding_word}}</b> {{finding_text}}</li>
{{/findings}}
</ul>
{{/is_findings}}
{{#is_figures}}
<div class="wide" role="group" aria-label="{{caption}}" tabindex="0">
<table>
<caption>{{caption}}</caption>
<thead>
<tr>{{#headings}}<th scope="col"{{#is_right}} class="right"{{/is_right}}>{{heading}}</th>{{/headings}}</tr>
</thead>
<tbody>
{{#rows}}
<tr>{{#cells}}{{#is_name}}<th scope="row">{{cell}}</th>{{/is_name}}{{^is_name}}<td{{#is_right}} class="right"{{/is_right}}>{{cell}}</td>{{/is_name}}{{/cells}}</tr>
{{/rows}}
</tbody>
</table>
</div>
{{/is_figures}}
{{#is_picture}}
<div class="picture wide" role="group" aria-label="{{picture_name}}" tabindex="0">
{{{picture_svg}}}
</div>
{{/is_picture}}
{{#is_verbatim}}
<h3>{{block_text}}</h3>
<pre>{{verbatim_text}}</pre>
{{/is_verbatim}}
{{#is_signature}}
{{#items}}
<p class="line">{{item_text}}</p>
{{/items}}
{{/is_signature}}
{{/blocks}}
</section>
{{/chapters}}
</main>
</body>
</html>
)html";

}  // namespace

std::string_view page_template() {
  return text;
}

}  // namespace leat::render::report
