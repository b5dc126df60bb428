package org.intercusp.archive;

import com.zaxxer.hikari.SQLExceptionOverride;
import java.sql.SQLException;
import java.util.Set;
import org.h2.api.ErrorCode;

/**
 * Has the pool give up every connection that finds the embedded database closed. A disk that is
 * full closes it under all of them; while one of them is kept, H2 does not open it anew, and the
 * service would go on failing long after there is room again.
 */
public final class ClosedDatabase implements SQLExceptionOverride {

  private static final Set<Integer> CLOSED =
      Set.of(
          ErrorCode.DATABASE_IS_CLOSED,
          ErrorCode.DATABASE_CALLED_AT_SHUTDOWN,
          ErrorCode.GENERAL_ERROR_1);

  @java.lang.Override
  public Override adjudicate(SQLException fault) {
    return CLOSED.contains(fault.getErrorCode()) ? Override.MUST_EVICT : Override.CONTINUE_EVICT;
  }
}
