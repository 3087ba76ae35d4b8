// Fills the page from the data in #report-data (DATA.md), in this order.

import { fillCases, fillRestWhenIdle } from "./cases.js";
import { fillChanges } from "./changes.js";
import { chooseCase, fillControls } from "./controls.js";
import { fillCut, fillCutPlots } from "./cut.js";
import { place } from "./elements.js";
import { fillFatigue } from "./fatigue.js";
import { fillAssumptions, fillCautions, fillInput, fillNotChecked, fillSources } from "./ground.js";
import { fillOtherwise, fillOverview } from "./overview.js";
import { fillPlots } from "./plots.js";
import { fillRidePlots, fillRides } from "./rides.js";
import { startFigure } from "./stage.js";
import { state } from "./state.js";
import { fillStudies } from "./studies.js";
import { fillViewButtons, handleKeys, handlePointers } from "./turning.js";
import { fillContents, fillHead, fillVerdict } from "./verdict.js";

fillHead();
fillControls();
fillRides();
fillStudies();
fillChanges();
fillNotChecked();
fillSources();
fillAssumptions();
fillCautions();
fillInput();
fillOtherwise();
fillFatigue();
fillCut();
fillVerdict();
fillContents();
fillPlots();
fillRidePlots();
fillCutPlots();
fillViewButtons();
fillOverview();
fillCases();
if (state.case >= 0) {
  const stage = place("stage");
  startFigure(stage);
  handlePointers(stage);
  handleKeys(stage);
  chooseCase(state.case);
}
fillRestWhenIdle();
new ResizeObserver(fillPlots).observe(place("plots-body"));
new ResizeObserver(fillRidePlots).observe(place("rides-body"));
new ResizeObserver(fillCutPlots).observe(place("cut-body"));
