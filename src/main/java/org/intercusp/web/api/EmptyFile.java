package org.intercusp.web.api;

import java.lang.reflect.Type;
import org.jspecify.annotations.Nullable;
import org.springframework.core.MethodParameter;
import org.springframework.http.HttpInputMessage;
import org.springframework.http.converter.HttpMessageConverter;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.servlet.mvc.method.annotation.RequestBodyAdviceAdapter;

/**
 * A treatment file without a byte is read like every other, so that the reader says what it lacks.
 */
@ControllerAdvice(assignableTypes = {TreatmentDoor.class, SheetDoor.class})
class EmptyFile extends RequestBodyAdviceAdapter {

  @Override
  public boolean supports(
      MethodParameter parameter, Type type, Class<? extends HttpMessageConverter<?>> converter) {
    return type.equals(byte[].class);
  }

  @Override
  public Object handleEmptyBody(
      @Nullable Object body,
      HttpInputMessage input,
      MethodParameter parameter,
      Type type,
      Class<? extends HttpMessageConverter<?>> converter) {
    return new byte[0];
  }
}
