#include "proto/shop_file.h"
