package org.intercusp.app;

import java.util.List;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.MediaType;
import org.springframework.web.accept.ContentNegotiationManager;
import org.springframework.web.accept.FixedContentNegotiationStrategy;
import org.springframework.web.accept.HeaderContentNegotiationStrategy;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.springframework.web.servlet.config.annotation.ContentNegotiationConfigurer;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.springframework.web.servlet.mvc.method.annotation.ExceptionHandlerExceptionResolver;

/**
 * A program that does not say what it accepts gets JSON, or the page where a path has nothing else;
 * a browser says that it wants a page.
 */
@Configuration(proxyBeanMethods = false)
class WebDefaults implements WebMvcConfigurer {

  @Override
  public void configureContentNegotiation(ContentNegotiationConfigurer configurer) {
    configurer.defaultContentType(MediaType.APPLICATION_JSON, MediaType.ALL);
  }

  /** Faults are told on a page only to who asks for one: every path can tell them in JSON. */
  @Override
  public void extendHandlerExceptionResolvers(List<HandlerExceptionResolver> resolvers) {
    ContentNegotiationManager asked =
        new ContentNegotiationManager(
            new HeaderContentNegotiationStrategy(),
            new FixedContentNegotiationStrategy(MediaType.APPLICATION_JSON));
    for (HandlerExceptionResolver resolver : resolvers) {
      if (resolver instanceof ExceptionHandlerExceptionResolver ours) {
        ours.setContentNegotiationManager(asked);
      }
    }
  }
}
