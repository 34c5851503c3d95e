#include "app/widgets/theme.h"
