// A length in millimetres is no duration.
// Refused with: conversion from
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/source.hpp"

using namespace hw;

#ifdef HW_TWIN
Duration x = seconds(1);
#else
Duration x = millimetres(1);
#endif
