import { render } from 'preact';
import { App } from './app';
import { loadDefaultGuide } from './state/open';
import { startPair } from './state/pair';
import { startReading } from './state/reading';
import { startPictures } from './state/sheet';
import './styles/index.css';

startReading();
startPictures();
startPair();
void loadDefaultGuide();
render(<App />, document.getElementById('page')!);
