import { writeCautions } from "../cautions";

/** What the page says to someone for whom something went wrong. */
export function writeSupport(): string {
  return `<h1>Support</h1>
<h2>Where to ask</h2>
<p>Ask first whoever gave you the add-in: your firm, or the programme you test for. They put this copy on its address, chose its
version and can reach its maintainers.</p>
<p>The maintainers read the list of issues that belongs to the project’s source; its README describes set-up, versions of Excel and
what is not known of them. Neither address is part of these files, since every copy is served from a place of its own.</p>

<h2>Before you report</h2>
<ul>
<li><code>#NAME?</code>: load the add-in (<i>Home › Add-ins</i>, choose Stillair), then use <i>Mend</i> in its pane.</li>
<li><code>#VALUE!</code> and <code>#N/A</code>: select the cell and read the message on the warning sign beside it; it names the argument and the
row.</li>
<li><code>#SPILL!</code>: something lies in the cells that the table needs. <code>#BUSY!</code> for more than a minute: close the workbook and open
it again.</li>
<li>A Data Table, Goal Seek and Evaluate Formula do not call add-ins; their results there are wrong. Use <i>Trace</i> and <i>What
if</i> in the pane.</li>
</ul>

<h2>What a report needs</h2>
<ol>
<li>The version of the add-in, at the foot of this page, and what <code>=STILLAIR.METHODVERSION()</code> gives.</li>
<li>The version of Excel (<i>File › Account</i>; on a Mac <i>Excel › About Excel</i>; or “on the web” with the browser) and of the
system.</li>
<li>The formula as it stands in the cell, what it shows, the whole message, and what you expected, with its source.</li>
<li>The smallest workbook that shows it. Replace names and addresses by invented ones, and check with the owner of the readings that you may
pass them on.</li>
<li>Whether <i>Check</i> in the pane reports anything for that workbook.</li>
</ol>
<p>The add-in sends nothing to anyone, so nobody knows of a fault until you report it. If a result that has been issued may be wrong, tell
those who rely on it first.</p>
${writeCautions()}`;
}
