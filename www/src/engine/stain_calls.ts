/**
 * The calls about stains that need no photo. The book comes with every call, so that a worker that
 * was lost has nothing to be told.
 */
import type { Calls } from '../worker/protocol';
import type { CallOptions, WorkerClient } from './client';
import type {
  FittedBook, Pass, PassReview, Plan, PlanRequest, PracticeRequest, PracticeScore, Prediction, PredictRequest, SwatchBook, UnfiredLook, UnfiredRequest,
} from './types';

export class StainCalls {
  constructor(private readonly client: WorkerClient<Calls>) {}

  fit(book: SwatchBook, options?: CallOptions): Promise<FittedBook> {
    return this.client.call('fit_swatches', [book], options);
  }

  predict(book: SwatchBook, requests: PredictRequest[], options?: CallOptions): Promise<Prediction[]> {
    return this.client.call('predict', [book, requests], options);
  }

  plan(book: SwatchBook, request: PlanRequest, options?: CallOptions): Promise<Plan> {
    return this.client.call('plan', [book, request], options);
  }

  reviewPass(book: SwatchBook, pass: Pass, options?: CallOptions): Promise<PassReview> {
    return this.client.call('review_pass', [book, pass], options);
  }

  lookUnfired(book: SwatchBook, request: UnfiredRequest, options?: CallOptions): Promise<UnfiredLook> {
    return this.client.call('look_unfired', [book, request], options);
  }

  scorePractice(request: PracticeRequest, options?: CallOptions): Promise<PracticeScore> {
    return this.client.call('score_practice', [request], options);
  }
}
