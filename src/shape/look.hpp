#pragma once

#include "core/look.hpp"
