/** What can be done with the selected shape, beside the photo it is in. */
import { cutLine, startCut } from '../state/cut';
import { scene } from '../state/desk';
import { nextOutline, outlineCount } from '../state/next_outline';
import { barNoteOn } from '../state/remarks';
import { removeShape } from '../state/remove';
import { regionById, regionIdOf, shapeOf, type Shape } from '../state/shapes';
import { select, selected, selectedPoint, view } from '../state/ui';
import { showEditor } from '../views/shape_editor';
import { words } from '../words';
import { zoomToShape } from './controls';
import { CutButtons } from './cut_buttons';
import { addPointAt, bigEnoughForHandles, handlesOf, removePointAt } from './point_handles';
import { RoleButtons } from './role_buttons';

function PointButtons({ shape, point }: { shape: Shape; point: number }) {
  const t = words.shape;
  return (
    <>
      <button type="button" onClick={() => addPointAt(shape, point)}>
        {t.addPoint}
      </button>
      <button type="button" onClick={() => removePointAt(shape, point, handlesOf(shape))}>
        {t.removePoint}
      </button>
    </>
  );
}

function Mending({ id }: { id: string }) {
  const t = words.found;
  return (
    <>
      <button type="button" class="other-outline" title={t.otherLong} onClick={() => void nextOutline(id)}>
        {t.other}
      </button>
      <button type="button" title={t.cutLong} onClick={() => startCut()}>
        {t.cut}
      </button>
    </>
  );
}

export function SelectionBar() {
  const shape = shapeOf(scene.value, selected.value);
  if (!shape) return null;
  const t = words.shape;
  const what = words.names.shape(scene.value, shape.key);
  const region = regionById(scene.value, regionIdOf(shape.key));
  const point = selectedPoint.value;
  const large = bigEnoughForHandles(shape, view.value.k);
  const note = outlineCount.value || barNoteOn(shape.key);
  return (
    <div class="selection-bar" role="group" aria-label={t.selected(what)}>
      <div class="bar-row head">
        <strong>{what}</strong>
        {note && <span class="bar-note">{note}</span>}
      </div>
      {cutLine.value ? (
        <CutButtons />
      ) : (
        <>
          {region && <RoleButtons region={region} />}
          <div class="bar-row">
            {region && <Mending id={region.id} />}
            {large && point !== null && <PointButtons shape={shape} point={point} />}
            <button type="button" onClick={showEditor}>
              {t.byNumbers}
            </button>
            <button type="button" onClick={() => removeShape(shape.key)}>
              {t.remove}
            </button>
          </div>
        </>
      )}
      <div class="bar-row last">
        <button type="button" title={words.stage.zoomToEdit} onClick={() => zoomToShape(shape.key)}>
          {t.zoomTo}
        </button>
        <button type="button" class="primary" onClick={() => select(null)}>
          {t.close}
        </button>
      </div>
    </div>
  );
}
