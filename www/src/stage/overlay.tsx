/** Outlines over the photo: thin and neutral, so that the colour under them can be judged. */
import type { Region } from '../engine/types';
import { bordersOf } from '../state/borders';
import { cutLine } from '../state/cut';
import { doc, scene } from '../state/desk';
import { asked } from '../state/naming';
import { pendingRestoration } from '../state/roles';
import { target } from '../state/sheet';
import { onPhoto } from '../state/stains/plan_pictures';
import { regionById, regionIdOf, boundsOf, shapeOf, shapesOf, type Shape } from '../state/shapes';
import { outlinesHidden, selected, stageSize, tool, view } from '../state/ui';
import { words } from '../words';
import { BorderHandles } from './border_handles';
import { CutLine } from './cut_line';
import { FoundStepOutlines } from './found_steps';
import { pathOf, stageFromPhoto } from './geometry';
import { clearOfEachOther, insideStage } from './name_places';
import { photoNames } from './photo_names';
import { PointHandles } from './point_handles';
import { AxisHandles, axisOnStage, MoveHandle } from './shape_handles';
import { stroke } from './stroke';
import { draggedBox } from './taps';
import { cross } from './keys';

/** Half the length of a tick. */
const TICK_PX = 7;

function Outline({ shape }: { shape: Shape }) {
  const d = pathOf(view.value, shape.outline);
  const id = regionIdOf(shape.key);
  const region = regionById(scene.value, id);
  const proposed = id !== null && id === pendingRestoration(doc.value)?.id;
  const state = shape.key === selected.value || (id !== null && id === asked.value) ? 'chosen' : proposed ? 'proposed' : region?.kind === 'restoration' || (id !== null && id === target.value) ? 'compared' : '';
  return (
    <g class={`outline ${state}`} data-shape={shape.key}>
      <path class="casing" d={d} />
      <path class="line" d={d} />
    </g>
  );
}

/** At the cervical end of each outline that is not selected: off the teeth, whose colour is judged. */
function Names() {
  const names = photoNames(doc.value, selected.value, asked.value, view.value.k).map((name) => {
    const { left, top, right, bottom } = boundsOf(shapeOf(scene.value, name.key)!.outline);
    const { cervical: c, incisal: i } = regionById(scene.value, regionIdOf(name.key)) ?? {};
    const up = c !== undefined && i !== undefined && c[1] < i[1];
    const [x, y] = stageFromPhoto(view.value, [(left + right) / 2, up ? top : bottom]);
    return insideStage({ ...name, x, y: y + (up ? -6 : 17), up }, stageSize.value);
  });
  return (
    <>
      {clearOfEachOther(names, stageSize.value.height).map(({ key, text, small, x, y }) => (
        <text key={key} class={small ? 'name small' : 'name'} x={x} y={y}>
          {text}
        </text>
      ))}
    </>
  );
}

/** The borders of the thirds as ticks; on the selected region with the axis itself. */
function Axis({ region, chosen }: { region: Region; chosen: boolean }) {
  const axis = axisOnStage(region);
  if (!axis) return null;
  const { from, to } = axis;
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [(-dy / length) * TICK_PX, (dx / length) * TICK_PX];
  const ticks = [0, ...bordersOf(region), 1].map((t) => {
    const [x, y] = [from[0] + t * dx, from[1] + t * dy];
    return `M${x - nx} ${y - ny}L${x + nx} ${y + ny}`;
  });
  const d = (chosen ? `M${from[0]} ${from[1]}L${to[0]} ${to[1]}` : '') + ticks.join('');
  return (
    <g class="axis">
      <path class="casing" d={d} />
      <path class="line" d={d} />
    </g>
  );
}

export function Overlay() {
  const { width, height } = stageSize.value;
  const shape = shapeOf(scene.value, selected.value);
  const region = regionById(scene.value, regionIdOf(selected.value));
  const what = shape ? words.names.shape(scene.value, shape.key) : '';
  const box = draggedBox.value;
  const at = cross.value;
  return (
    <svg class={outlinesHidden.value || onPhoto.value ? 'overlay hidden' : 'overlay'} width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
      {shapesOf(scene.value).map((s) => (
        <Outline key={s.key} shape={s} />
      ))}
      <Names />
      {scene.value.regions.map((r) => (
        <Axis key={r.id} region={r} chosen={r === region} />
      ))}
      {shape && !cutLine.value && (
        <g key={shape.key}>
          <MoveHandle shape={shape} what={what} />
          <PointHandles shape={shape} what={what} />
          {region && <AxisHandles region={region} what={what} />}
          {region && <BorderHandles region={region} shape={shape} what={what} />}
        </g>
      )}
      <FoundStepOutlines />
      {cutLine.value && <CutLine what={what} />}
      {stroke.value && <path class="stroke" d={`M${stroke.value.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}`} />}
      {box && <rect class="box" {...box} />}
      {at && tool.value !== 'look' && (
        <g>
          <path class="cross" d={`M${at[0] - 16} ${at[1]}h32M${at[0]} ${at[1] - 16}v32`} />
          <text x={width / 2} y={22}>
            {words.stage.crossHelp}
          </text>
        </g>
      )}
    </svg>
  );
}
