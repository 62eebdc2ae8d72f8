#include "html_parts.hpp"

namespace lakebound::page {

// One column on a phone; from 46rem, and on paper, some sections stand in two. Colours are named once and
// changed for dark, for paper and for forced colours; no background carries a meaning. The two families of
// type are brought to one height of small letters by font-size-adjust, whichever of them a machine has.
const char* style_sheet() {
    return R"css(:root{--ground:#fbf9f4;--ink:#1c1a17;--soft:#544e46;--rule:#857c6f;--hair:#c9c0b1;--tone:#ebe4d6;--deep:#c8bda9;--red:#96231a;
--text:Charter,"Bitstream Charter",Cambria,"Noto Serif","Liberation Serif","DejaVu Serif Condensed",serif;
--head:"Helvetica Neue",Arial,"Liberation Sans","Noto Sans","DejaVu Sans Condensed",sans-serif;color-scheme:light dark}
@media (prefers-color-scheme:dark){:root{--ground:#191714;--ink:#ece6da;--soft:#bdb4a6;--rule:#8d8477;--hair:#4b453d;--tone:#302b24;--deep:#5a5246;--red:#f4a595}}
@media (forced-colors:active){:root{--ground:Canvas;--ink:CanvasText;--soft:CanvasText;--rule:CanvasText;--hair:GrayText;--tone:Canvas;--deep:GrayText;--red:CanvasText}}
*{box-sizing:border-box}
html{font:100%/1.45 var(--text);font-size-adjust:.478;background:var(--ground);color:var(--ink);-webkit-text-size-adjust:100%;text-size-adjust:100%}
body,h1,h2,p,ol,ul,dl,dd,dt,figure,table,pre{margin:0;padding:0}
main{max-width:68rem;margin:0 auto;padding:.8rem .8rem 2rem;overflow-wrap:break-word}
article+article{margin-top:2.4rem}
.top{border-top:.32rem solid;padding-top:.16rem}
.top>div{border-top:1px solid;padding:.6rem 0 .7rem;display:grid;gap:.6rem}
.kind,h2,thead th,caption,.slip dt,.cautions dt{font-family:var(--head);font-size-adjust:.519;line-height:1.3}
.kind{font-weight:700;font-size:.9rem;letter-spacing:.06em}
h1{font-size:1.9rem;line-height:1.12}
.lead{font-size:1.1rem}
.slip{display:grid;grid-template-columns:auto 1fr;gap:.15rem .8rem;align-content:start;align-items:baseline;font-size:.9rem}
.slip dt{color:var(--soft);font-size:.85rem}
section{margin-top:1.6rem}
section.bare{margin-top:1rem}
h2{border-top:1px solid;padding:.35rem 0;font-size:.95rem}
h2.red{color:var(--red);border-top-width:2px}
section>p+p,section>p+table,section>table+p,dl+p,ul+p,ol+p,.verdict p+p,figure+p,.command+p,p+.command{margin-top:.35rem}
.note,figcaption{font-size:.88rem;color:var(--soft);line-height:1.4;font-weight:400}
.care,.bad{font-weight:700}
.bad{color:var(--red)}
td,th,dd,.amount,li,p{font-variant-numeric:lining-nums tabular-nums}
.unit{font-weight:400;padding-left:.22em}
[data-fill]::after{content:attr(data-fill);visibility:hidden}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.verdict{border:2px solid;padding:.7rem;display:grid;gap:.8rem 1.4rem;margin-top:1rem}
.verdict section{margin-top:0}
.word{display:flex;flex-wrap:wrap;align-items:center;gap:.2rem .55rem;font-size:1.9rem;line-height:1.1;font-weight:700}
.word svg{width:1.7rem;height:1.7rem;flex:none}
.word .figure{font-size:1.25rem;font-weight:400}
.chance{font-size:1.25rem;line-height:1.3}
.chance b{font-size:1.45rem}
.watch{border:1.5px solid;border-left-width:.5rem;padding:.45rem .7rem;margin:.6rem 0}
.verdict+.guard{margin-top:.3rem}
.guard{border-left:.5rem solid;padding:.15rem 0 .15rem .7rem}
.aside{border-left:.2rem solid var(--rule);padding:.1rem 0 .1rem .7rem;margin-top:.6rem;font-style:italic}
table{border-collapse:collapse;width:100%}
caption{text-align:left;font-weight:700;padding:.2rem 0}
th{text-align:left;font-weight:400}
thead th{font-weight:700;font-size:.8rem;color:var(--soft);vertical-align:bottom}
td,th{padding:.32rem .5rem .32rem 0;vertical-align:baseline}
td:last-child,th:last-child{padding-right:0}
tbody tr{border-top:1px solid var(--hair)}
tbody tr:last-child{border-bottom:1px solid var(--hair)}
.right{text-align:right}
td.right{white-space:nowrap}
.chosen,.strong{font-weight:700}
.got{white-space:nowrap;text-align:right}
.large td,.large th{vertical-align:middle}
.large .strong{font-size:1.75rem;line-height:1}
.ticks td,.ticks tbody th{vertical-align:top;padding-top:.5rem;padding-bottom:.55rem}
.ticks .amount{font-size:2.3rem;line-height:1;font-weight:700;text-align:right;white-space:nowrap;width:1%;padding-right:1.1rem}
.ticks .amount .unit{font-size:1.1rem}
.ticks b{display:block;font-size:1.2rem;line-height:1.2}
.ticks .note{display:block}
.compact td,.compact tbody th{padding-top:.35rem!important;padding-bottom:.35rem!important}
.compact .amount{font-size:1.35rem!important}
.compact .amount .unit{font-size:.85rem}
.compact b{font-size:1.02rem}
input{font:inherit;color:inherit;background:transparent;border-radius:0;margin:0}
input[type=checkbox]{appearance:none;-webkit-appearance:none;width:1.9rem;height:1.9rem;border:1.5px solid;display:block;position:relative;cursor:pointer}
.compact input[type=checkbox],table:not(.ticks) input[type=checkbox]{width:1.45rem;height:1.45rem}
input[type=checkbox]:checked::after{content:"";position:absolute;left:32%;top:4%;width:32%;height:68%;border:solid;border-width:0 .22rem .22rem 0;transform:rotate(40deg)}
input[type=text]{border:0;border-bottom:1.5px solid;width:6rem;height:2rem;font-size:1.25rem;text-align:right;padding:0 .2rem}
.compact input[type=text],table:not(.ticks) input[type=text]{width:4.4rem;height:1.6rem;font-size:1rem}
input.line{width:100%;max-width:14rem;height:1.4rem;font-size:1rem;text-align:left}
input:focus-visible{outline:3px solid var(--red);outline-offset:2px}
.steps{list-style:none;counter-reset:step}
.steps li{counter-increment:step;position:relative;padding:.28rem 0 .28rem 2.1rem}
.steps li::before{content:counter(step);position:absolute;left:0;width:1.5rem;text-align:right;font-weight:700;font-size:1.3rem;line-height:1.15}
ul{list-style:none}
ul li{position:relative;padding:.1rem 0 .1rem 1.2rem}
ul li::before{content:"\2013";position:absolute;left:0}
ul.warn li::before{content:"!";font-weight:700}
.facts{display:grid;grid-template-columns:minmax(5.6rem,max-content) 1fr}
.facts dt,.facts dd{padding:.25rem 0;border-top:1px solid var(--hair)}
.facts dt{padding-right:1rem;color:var(--soft)}
.cautions div{padding:.3rem 0}
.cautions dt{color:var(--red);font-weight:700;font-size:.92rem}
.formula{margin-top:.5rem;padding-left:1.5em;font-variant-numeric:lining-nums}
.formula p:first-child{margin-left:-1.5em}
.formula span{display:inline-block;min-width:4.5em;text-align:right}
code,pre{font:.88em/1.4 ui-monospace,"DejaVu Sans Mono","Liberation Mono",monospace;font-size-adjust:none;overflow-wrap:anywhere}
pre{white-space:pre-wrap}
code span{display:inline-block}
.swatches,.paper{display:none}
.foot{margin-top:.9rem;border-top:1px solid;padding-top:.3rem;font-size:.86rem;color:var(--soft)}
figure+figure{margin-top:1rem}
figure svg{display:block;width:100%;max-width:28rem;height:auto}
figure.narrow svg{max-width:24rem}
figcaption{margin-top:.2rem;max-width:28rem}
svg text{font:13px var(--head);font-size-adjust:.519;fill:var(--ink);font-variant-numeric:lining-nums tabular-nums}
svg .quiet{fill:var(--soft)}
svg .bold{font-weight:700}
svg .mid{text-anchor:middle}
svg .end{text-anchor:end}
svg .axis,svg .thin{stroke:var(--ink);stroke-width:1;fill:none}
svg .grid{stroke:var(--hair);stroke-width:1;fill:none}
svg .line{stroke:var(--ink);stroke-width:2.2;fill:none}
svg .dash{stroke-dasharray:5 4}
svg .dots{stroke-dasharray:1.5 3}
svg .limit{stroke:var(--red);stroke-width:1.8;fill:none;stroke-dasharray:9 3 2 3}
svg .red{fill:var(--red);font-weight:700}
svg .tone{fill:var(--tone)}
svg .shaded{fill:var(--deep)}
svg .solid{fill:var(--ink)}
svg .open{fill:var(--ground)}
svg .edge{stroke:var(--ink);stroke-width:1.5}
svg .none{fill:none}
svg .thick{stroke:var(--ink);stroke-width:5}
svg .on{fill:var(--ground)}
@media (forced-colors:active){svg .tone{stroke:GrayText}}
@media print,screen and (min-width:46rem){
main{padding:1.6rem 2rem 3rem}
.top>div{grid-template-columns:1fr auto}
.verdict{padding:.8rem .9rem}
.verdict:has(>div+div){grid-template-columns:minmax(0,1fr) minmax(17rem,26rem);align-items:center}
.pair{display:grid;grid-template-columns:minmax(0,7fr) minmax(0,5fr);gap:0 2.4rem}
.pair.even{grid-template-columns:minmax(0,1fr) minmax(0,1fr)}
.cautions div{display:grid;grid-template-columns:7.5rem 1fr;gap:.9rem}
}
@media screen and (max-width:45.99rem){
.ticks thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.ticks tr{display:grid;grid-template-columns:2.5rem 7.2rem 1fr;align-items:center;padding:.5rem 0}
.ticks.compact tr{grid-template-columns:2.5rem 5.4rem 1fr}
.ticks td,.ticks tbody th{padding:0!important}
.ticks .amount{width:auto}
.ticks tbody th{grid-column:2/4;grid-row:2;padding-top:.35rem!important}
.ticks .got{justify-self:end}
.ticks .got input{width:4.6rem}
.stacked tr{display:grid;grid-template-columns:repeat(var(--n),minmax(0,1fr));gap:0 .4rem;padding:.3rem 0}
.stacked tbody th{grid-column:1/-1;order:-1;font-weight:700}
.stacked thead th:first-of-type{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.stacked td,.stacked th{padding:0;overflow-wrap:anywhere}
td.right{white-space:normal}
}
@page{margin:9mm 12mm 8mm}
@media print{
:root{--ground:#fff;--ink:#000;--soft:#333;--rule:#666;--hair:#aaa;--tone:#e8e8e8;--deep:#bdbdbd;--red:#7d1a12;color-scheme:light}
html{font-size:8.9pt;line-height:1.3}
main{max-width:none;padding:0}
.top>div{padding:.35rem 0 .3rem}
section{margin-top:2.3mm}
section.bare,.verdict{margin-top:1.5mm}
h2{font-size:.86rem;padding:.25rem 0 .2rem}
.verdict{padding:1.6mm 3mm}
.verdict+.guard{margin-top:.6mm}
.guard{padding:0 0 0 .7rem}
.steps li,td,th{padding-top:.15rem;padding-bottom:.15rem}
.ticks td,.ticks tbody th{padding-top:.3rem;padding-bottom:.3rem}
.compact td,.compact tbody th{padding-top:.16rem!important;padding-bottom:.16rem!important}
.compact input[type=text]{width:3.4rem}
.cautions div{padding:.18rem 0}
.paper{display:block}
.swatches{display:grid;grid-template-columns:repeat(auto-fit,minmax(0,1fr));grid-auto-flow:column;border:1px solid var(--rule)}
.swatches p{height:10mm;padding:.15rem .4rem;font-size:.88rem;color:var(--soft)}
.swatches p+p{border-left:1px solid var(--rule)}
figure svg{max-width:none}
figure.narrow svg{max-width:72mm}
figure+figure{margin-top:2.4mm}
.foot{margin-top:1mm;padding-top:.6mm}
.side,article+article{break-before:page}
article+article{margin-top:0}
tr,li,.cautions div,.verdict,.watch,.guard,.aside,.swatches,figure,.formula,.whole{break-inside:avoid}
h1,h2,caption{break-after:avoid}
p,li{orphans:2;widows:2}
thead{display:table-header-group}
}
@media print and (max-height:268mm){html{font-size:8.3pt}.swatches p{height:8mm}section{margin-top:1.8mm}figure+figure{margin-top:1.8mm}}
)css";
}

} // namespace lakebound::page
