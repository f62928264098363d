import { palette, typeface } from "../palette";

const ink = `#${palette.ink}`;

/** The look of a trace's page: the colours of the sample workbooks, narrow screens and paper included. */
export const traceStyle = `
*{box-sizing:border-box}
body{margin:0;background:#${palette.white};color:${ink};font:16px/1.45 ${typeface},"Helvetica Neue",Helvetica,sans-serif}
a{color:#${palette.petrol}}
.skip{position:absolute;left:-999px}
.skip:focus{left:8px;top:8px;background:#${palette.white};padding:4px 8px}
header,main,footer{max-width:76rem;margin:0 auto;padding:0 1.25rem}
header{border-top:6px solid #${palette.petrol};padding-top:1.25rem}
h1{font-size:1.5rem;line-height:1.2;margin:0;color:#${palette.petrol}}
h2{font-size:1.1rem;margin:2rem 0 .5rem;padding-bottom:.3rem;border-bottom:1px solid #${palette.rule};color:#${palette.petrol}}
header p{margin:.3rem 0;color:#${palette.grey}}
header .answer{color:${ink};margin:1rem 0;padding:.7rem 1rem;background:#${palette.petrolPale};border-left:5px solid #${palette.petrol};font-size:1.15rem}
.answer strong{font-size:1.35rem}
.key{display:flex;flex-wrap:wrap;gap:.3rem 1.25rem;margin:.75rem 0;padding:0;list-style:none;font-size:.875rem}
.key span{display:inline-block;padding:0 .4rem;border:1px solid #${palette.rule}}
.tools{margin:.5rem 0}
button{font:inherit;font-size:.875rem;color:#${palette.petrol};background:#${palette.white};border:1px solid #${palette.petrolMid};padding:.25rem .7rem;margin-right:.4rem;cursor:pointer}
button:hover,button:focus-visible{background:#${palette.petrolPale}}
ul.tree,ul.tree ul{list-style:none;margin:0;padding:0}
ul.tree ul{margin-left:.6rem;padding-left:.9rem;border-left:1px solid #${palette.rule}}
li{margin:.3rem 0}
summary{cursor:pointer;padding:.15rem .3rem}
summary:hover{background:#${palette.petrolPale}}
summary:focus-visible,a:focus-visible,button:focus-visible{outline:2px solid #${palette.copper};outline-offset:1px}
.leaf,.again{padding:.15rem .3rem .15rem 1.3rem}
.input{background:#${palette.input};border-left:3px solid #${palette.copper}}
.role{color:#${palette.grey}}
.role::after{content:" · "}
.value{font-weight:bold;white-space:pre-wrap}
.place{font-family:ui-monospace,Menlo,Consolas,monospace;font-size:.85em;color:#${palette.grey};overflow-wrap:anywhere}
.kind{font-size:.8rem;color:#${palette.grey}}
.bad{color:#${palette.fail}}
dl{margin:.2rem 0 .4rem 1.3rem;display:grid;grid-template-columns:7.5rem minmax(0,1fr);gap:.1rem .75rem;font-size:.9rem}
dt{color:#${palette.grey}}
dd{margin:0;overflow-wrap:anywhere}
dd.equation{font-style:italic}
dd code{font-family:ui-monospace,Menlo,Consolas,monospace;font-size:.92em}
.cells{margin:.2rem 0 .4rem 1.3rem;font-size:.875rem}
.cells table{border-collapse:collapse;margin-top:.3rem}
.cells th,.cells td{padding:.1rem .8rem .1rem 0;text-align:left;font-weight:normal;border-bottom:1px solid #${palette.hair}}
.cells td{text-align:right;font-variant-numeric:tabular-nums}
.inputs{columns:14rem;column-gap:1.5rem;padding:0;list-style:none;font-size:.875rem}
.inputs li{margin:0;break-inside:avoid}
footer{margin-top:2rem;padding-bottom:2rem;font-size:.875rem;color:#${palette.grey}}
@media (max-width:40rem){
header,main,footer{padding-left:.8rem;padding-right:.8rem}
ul.tree ul{margin-left:.15rem;padding-left:.45rem}
dl{grid-template-columns:minmax(0,1fr);margin-left:.5rem;gap:0}
dd{margin-bottom:.25rem}
.leaf,.again{padding-left:.4rem}
.cells{margin-left:.5rem}
}
@media print{.tools,.skip{display:none}body{font-size:10pt}li{break-inside:avoid-page}}
`;
