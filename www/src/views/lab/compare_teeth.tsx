/** The two straightened pictures side by side, each with its photo, its role and its own numbers. */
import { StrokeSample } from '../../charts/axis_curve';
import { pictureOf } from '../../state/compare/compare';
import { SIDES, type Side, type Sided } from '../../state/compare/compare_model';
import { words } from '../../words';
import { ThirdsGutter, Upright, WholeGutter, WholeNumbers } from '../sheet/picture';

export type Both = Record<Side, Sided>;

export const nameOf = ({ of, region }: Sided): string => words.names.region(of.made.scene, region.id);
export const photoOf = ({ of }: Sided): string => words.photo.shown(of.photo.name);

export function Teeth({ both }: { both: Both }) {
  return (
    <>
      <div class="teeth-head teeth-row">
        <span class="gutter" />
        {SIDES.map((role) => (
          <div key={role} class="picture-head">
            <small>{words.compare.role[role]}</small>
            <strong>
              {words.names.kindHead[both[role].region.kind]} {words.names.own(both[role].of.made.scene, both[role].region.id)}
            </strong>
            <small class="of-photo" title={photoOf(both[role])}>{photoOf(both[role])}</small>
            <StrokeSample role={role} />
          </div>
        ))}
      </div>
      <div class="teeth teeth-row">
        <ThirdsGutter />
        {SIDES.map((role) => (
          <Upright key={role} picture={pictureOf(both[role])} region={both[role].region} label={words.compare.pictureOf(nameOf(both[role]), photoOf(both[role]))} />
        ))}
      </div>
      <div class="teeth-foot teeth-row">
        <WholeGutter />
        {SIDES.map((role) => (
          <WholeNumbers key={role} whole={both[role].reading?.zones.whole} />
        ))}
      </div>
    </>
  );
}
