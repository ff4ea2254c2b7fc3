/** Stands in for `state/demo_files`. */
import { piece, pieceText } from './pieces';

export const demoPhoto = async (): Promise<Blob> => new Blob([await piece('demo.jpg')], { type: 'image/jpeg' });
export const demoScene = (): Promise<string> => pieceText('scene.json');
export const demoSwatches = (): Promise<string> => pieceText('demo.swatches.json');
