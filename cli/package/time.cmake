# The time that packages carry unless another is asked for: that of the newest entry of `changelog`.
if(NOT DEFINED ENV{SOURCE_DATE_EPOCH})
  set(ENV{SOURCE_DATE_EPOCH} 1796025600)
endif()
