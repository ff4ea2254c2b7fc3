/** What can be done with the selected shape, beside the photo it is in. */
import { changeScene, scene } from '../state/desk';
import { removed } from '../state/scene_edit';
import { shapeOf } from '../state/shapes';
import { say } from '../state/status';
import { select, selected, selectedPoint, view } from '../state/ui';
import { showEditor } from '../views/shape_editor';
import { words } from '../words';
import { zoomToShape } from './controls';
import { addPointAt, bigEnoughForHandles, handlesOf, removePointAt } from './point_handles';

export function SelectionBar() {
  const shape = shapeOf(scene.value, selected.value);
  if (!shape) return null;
  const t = words.shape;
  const what = words.names.shape(scene.value, shape.key);
  const point = selectedPoint.value;
  const large = bigEnoughForHandles(shape, view.value.k);
  const remove = () => {
    changeScene(words.edits.remove(what), (s) => removed(s, shape.key));
    select(null);
    say(words.status.removed(what));
  };
  return (
    <div class="selection-bar" role="group" aria-label={t.selected(what)}>
      <strong>{what}</strong>
      <button type="button" onClick={() => zoomToShape(shape.key)}>
        {large ? t.zoomTo : words.stage.zoomToEdit}
      </button>
      {large && point !== null && (
        <>
          <button type="button" onClick={() => addPointAt(shape, point)}>
            {t.addPoint}
          </button>
          <button type="button" onClick={() => removePointAt(shape, point, handlesOf(shape))}>
            {t.removePoint}
          </button>
        </>
      )}
      <button type="button" onClick={showEditor}>
        {t.byNumbers}
      </button>
      <button type="button" onClick={remove}>
        {t.remove}
      </button>
      <button type="button" class="primary" onClick={() => select(null)}>
        {t.close}
      </button>
    </div>
  );
}
