// A number without a unit is no quantity.
// Refused with: conversion from
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "base/source.hpp"

using namespace hw;

#ifdef HW_TWIN
Length x = millimetres(1.2);
#else
Length x = 1.2;
#endif
