/** A quiet button beside the name of the demo; nothing opens by itself. */
import { startTour, tourOffered } from '../state/tour';
import { words } from '../words';

export const TourOffer = () =>
  tourOffered.value ? (
    <button type="button" class="tour-offer" onClick={startTour}>
      {words.tour.offer}
    </button>
  ) : null;
