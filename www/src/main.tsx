import { render } from 'preact';
import { App } from './app';
import { loadDefaultGuide } from './state/open';
import { startReading } from './state/reading';
import { startPictures } from './state/sheet';
import './styles/index.css';

startReading();
startPictures();
void loadDefaultGuide();
render(<App />, document.getElementById('page')!);
