// At a glance: the plots, drawn for the width there is.

import { make, place } from "./elements.js";
import { floorPlot } from "./floor_plot.js";
import { rankingPlot } from "./ranking_plot.js";
import { twistPlot } from "./twist_plot.js";
import { strip } from "./verdict.js";
import { wheelPlot } from "./wheel_plot.js";
import { worthPlot } from "./worth_plot.js";

export function fillPlots() {
  const body = place("plots-body");
  const wide = body.clientWidth,
    columns = wide >= 800 ? 2 : 1;
  const room = Math.floor(columns === 2 ? (wide - 36) / 2 : wide);
  const width = Math.max(280, Math.min(680, room));
  if (body.dataset.width === String(width)) return;
  body.dataset.width = String(width);
  const plots = [rankingPlot, wheelPlot, twistPlot, floorPlot, worthPlot].map((f) => f(width));
  body.replaceChildren(
    ...plots
      .filter((p) => p)
      .map((p) =>
        make("figure", {}, make("figcaption", {}, p.title, make("small", {}, p.note)), p.svg),
      ),
  );
  const stripWidth = Math.max(280, Math.min(1160, place("verdict-body").clientWidth));
  place("strip").replaceChildren(strip(stripWidth));
}
