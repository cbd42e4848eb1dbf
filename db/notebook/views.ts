import { lifeFitsView, replayScoresView } from './analysis-views.ts';
import { depotsView, livesView, platformsView, vehiclesView } from './fleet-views.ts';
import { assessmentsView, fleetEventsView, gradeChangesView } from './list-views.ts';
import { readingsView, stretchesView, stretchTotalsView } from './reading-views.ts';
import { bookingsView, packetsView } from './shop-views.ts';
import type { NotebookView } from './view.ts';

/** All that notebooks may read: nothing of people, keys, sessions, links, mail, and no free text of theirs. */
export const notebookViews: readonly NotebookView[] = [
  vehiclesView,
  platformsView,
  depotsView,
  livesView,
  readingsView,
  stretchesView,
  stretchTotalsView,
  assessmentsView,
  gradeChangesView,
  fleetEventsView,
  bookingsView,
  packetsView,
  lifeFitsView,
  replayScoresView,
];
