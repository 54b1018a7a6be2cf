#include "cli/commands.h"
#include "serve/server.h"

namespace pritchel::cli {

Result<void> run(const ServeArguments& arguments, const Places& places) {
  return serve::serve({.store = arguments.store,
                       .templates = places.templates,
                       .samples = places.samples,
                       .host = arguments.host,
                       .port = arguments.port,
                       .page = arguments.page});
}

} // namespace pritchel::cli
