"""How the report looks: one style sheet, no font or picture from elsewhere.

Ink on white, one accent for headings; what colour says is also said in words, so it prints alike
in black and white. Sizes are relative; the page box is left to the printer, so that A4 and Letter
both fit.
"""

from __future__ import annotations

INK, PAPER, QUIET, ACCENT, SHADE = "#1c1c1c", "#ffffff", "#4d4d4d", "#00595f", "#f1f1ee"
PAIRS = ((INK, PAPER), (QUIET, PAPER), (ACCENT, PAPER), (INK, SHADE), (QUIET, SHADE))
"""Every text colour with every ground that it stands on; a test reckons their contrast."""

CSS = f"""\
:root {{ color-scheme: light; }}
* {{ box-sizing: border-box; }}
html {{ background: {PAPER}; color: {INK}; font: 100%/1.45 system-ui, sans-serif; }}
body {{ margin: 0 auto; max-width: 46rem; padding: 1rem; overflow-wrap: anywhere; }}
h1 {{ font-size: 1.5rem; line-height: 1.2; margin: 0 0 0.2rem; }}
h2 {{ color: {ACCENT}; font-size: 1.05rem; margin: 1.1rem 0 0.25rem; }}
p, ul {{ margin: 0.25rem 0; }}
ul {{ padding-left: 1.2rem; }}
.under, footer, figcaption, caption {{ color: {QUIET}; }}
.caution {{ background: {SHADE}; border-left: 0.3rem solid {INK}; padding: 0.3rem 0.6rem; }}
table {{ border-collapse: collapse; width: 100%; }}
caption {{ text-align: left; padding-bottom: 0.2rem; }}
th, td {{ border-top: 1px solid {QUIET}; padding: 0.15rem 0.4rem 0.15rem 0; text-align: left;
  vertical-align: top; font-weight: normal; }}
thead th {{ border-top: 0; font-weight: bold; }}
.number {{ text-align: right; white-space: nowrap; }}
figure {{ margin: 0.5rem 0; }}
svg {{ display: block; max-width: 100%; height: auto; }}
footer {{ border-top: 1px solid {QUIET}; font-size: 0.85rem; margin-top: 1rem;
  padding-top: 0.3rem; }}
article + article {{ border-top: 2px solid {INK}; margin-top: 2rem; padding-top: 1rem; }}
.dense {{ font-size: 0.85rem; }}
@media (min-width: 60rem) {{ body {{ max-width: 60rem; }} }}
@media print {{
  @page {{ margin: 11mm 12mm; }}
  html {{ font-size: 10pt; line-height: 1.3; }}
  body {{ max-width: none; padding: 0; }}
  h1 {{ font-size: 1.35rem; }}
  h2 {{ margin-top: 0.6rem; break-after: avoid; }}
  .caution, figure, tr, li {{ break-inside: avoid; }}
  article + article {{ border-top: 0; break-before: page; margin: 0; padding: 0; }}
  .dense {{ font-size: 6.6pt; line-height: 1.22; }}
  .dense h1 {{ font-size: 11pt; }}
  .dense h2 {{ font-size: 8pt; margin: 0.35rem 0 0.1rem; }}
  .dense p, .dense ul {{ margin: 0.1rem 0; }}
  .dense .columns {{ column-count: 2; column-gap: 6mm; }}
  .dense footer {{ font-size: 1em; margin-top: 0.3rem; }}
  .dense th, .dense td {{ padding: 0.05rem 0.3rem 0.05rem 0; }}
}}
"""
