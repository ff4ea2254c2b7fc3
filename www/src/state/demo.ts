/** The demo's photo: what it shows is invented, whosever stains are in use. It is known by the name it is opened under. */
import { words } from '../words';

export const isDemo = (photo: { readonly name: string } | null): boolean => photo?.name === words.demo.name;
