/// One function a resource: adds its requests (docs/formats/http.md). No logic lives in them:
/// parse, call, answer.
#pragma once

namespace pritchel::serve {

class Office;
class Routes;

void add_practice_routes(Routes& routes, Office& office);
void add_case_routes(Routes& routes, Office& office);
/// Who waits for a change of a case.
void add_change_routes(Routes& routes, Office& office);
void add_visit_routes(Routes& routes, Office& office);
void add_visit_picture_routes(Routes& routes, Office& office);
void add_picture_routes(Routes& routes, Office& office);
void add_reading_routes(Routes& routes, Office& office);
/// Turns of readings, who is done, and how far they agree.
void add_agreement_routes(Routes& routes, Office& office);
void add_measure_routes(Routes& routes, Office& office);
void add_find_routes(Routes& routes, Office& office);
void add_plan_routes(Routes& routes, Office& office);
/// Changes of a foot that aren't planned yet: the best fit, and what a hand tries; and taking one.
void add_fit_routes(Routes& routes, Office& office);
void add_paper_routes(Routes& routes, Office& office);
/// The page's files; last, for they answer every path that nobody else did.
void add_page_routes(Routes& routes, Office& office);

} // namespace pritchel::serve
