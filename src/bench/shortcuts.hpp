#pragma once

#include "bench/file_dialog.hpp"
#include "bench/stage.hpp"
#include "bench/widgets.hpp"

namespace podwright {

/// What the keys do; nothing while text is typed or a question stands open. See help_sheet.
void handle_shortcuts(WindowFrame& frame, FileDialog& files, const Stage& stage, double aspect);

}  // namespace podwright
