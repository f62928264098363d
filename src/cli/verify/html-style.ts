import { palette, typeface } from "../../workbook/index";

const { ink, petrol, petrolPale, copper, grey, rule, hair, pass, fail, white } = palette;

/** The report's look: paper, one column, severities told by word, bar and colour. */
export const styleSheet = `
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0;background:#${white};color:#${ink};font:16px/1.5 ${typeface},"Liberation Sans",sans-serif}
header{border-top:8px solid #${petrol};background:#${petrolPale};padding:1.5rem max(1rem,calc(50vw - 32rem))}
main{padding:.5rem max(1rem,calc(50vw - 32rem)) 3rem}
.brand{margin:0;color:#${petrol};font-weight:bold;font-size:.85rem;letter-spacing:.03em}
h1{margin:.2rem 0 .4rem;color:#${petrol};font-size:1.8rem;line-height:1.2;overflow-wrap:anywhere}
h2{margin:2.2rem 0 .2rem;color:#${petrol};font-size:1.25rem;overflow-wrap:anywhere}
h3{margin:0;font-size:1rem;font-weight:bold}
p{margin:.3rem 0}
a{color:#${petrol}}
a:focus-visible,summary:focus-visible,.wide:focus-visible{outline:3px solid #${copper};outline-offset:2px}
.path{color:#${grey};font-size:.85rem;overflow-wrap:anywhere}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{padding:.35rem .7rem;border-bottom:1px solid #${hair};text-align:left;vertical-align:baseline}
thead th{border-bottom:2px solid #${petrol};color:#${petrol};font-size:.85rem}
tbody th{font-weight:normal}
td.count{text-align:right}
thead th:nth-child(n+2):nth-child(-n+4){text-align:right}
td.wrong{color:#${fail};font-weight:bold}
td.doubtful{color:#${copper};font-weight:bold}
td.none{color:#${grey}}
tr.unread td{color:#${fail}}
.findings{list-style:none;margin:.8rem 0;padding:0;display:grid;gap:.8rem}
.findings>li{border:1px solid #${rule};border-left:6px solid #${grey};padding:.7rem .9rem;overflow-wrap:anywhere}
.findings>li.wrong{border-left:6px solid #${fail}}
.findings>li.doubtful{border-left:6px double #${copper}}
.findings>li.note{border-left:6px dotted #${grey}}
.severity{display:inline-block;min-width:5.2rem;color:#${grey};text-transform:uppercase;font-size:.78rem;letter-spacing:.05em}
.wrong .severity{color:#${fail}}
.doubtful .severity{color:#${copper}}
.place{color:#${petrol};font-weight:bold}
dl{margin:.4rem 0 0;display:grid;grid-template-columns:8.5rem 1fr;gap:.15rem .8rem;font-size:.92rem}
dt{color:#${grey}}
dd{margin:0}
.clear{color:#${pass}}
.problem{color:#${fail}}
.findings ul{margin:.3rem 0 0;padding-left:1.2rem;font-size:.9rem}
.findings ul li{border:0;padding:.1rem 0}
summary{cursor:pointer;color:#${petrol};margin-top:.6rem}
footer{margin-top:2.5rem;border-top:1px solid #${rule};color:#${grey};font-size:.85rem}
@media (max-width:34rem){dl{grid-template-columns:1fr}dd{margin-bottom:.3rem}h1{font-size:1.4rem}th,td{padding:.3rem .4rem}}
@media print{header{background:none;padding:1rem 0}main{padding:0}.findings>li{break-inside:avoid}details>*{display:block}}
`;
