package org.intercusp.recordsserver;

import ca.uhn.fhir.batch2.jobs.config.Batch2JobsConfig;
import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.interceptor.api.IInterceptorService;
import ca.uhn.fhir.jpa.api.config.JpaStorageSettings;
import ca.uhn.fhir.jpa.api.config.ThreadPoolFactoryConfig;
import ca.uhn.fhir.jpa.api.dao.IFhirSystemDao;
import ca.uhn.fhir.jpa.batch2.JpaBatch2Config;
import ca.uhn.fhir.jpa.config.HapiJpaConfig;
import ca.uhn.fhir.jpa.config.util.HapiEntityManagerFactoryUtil;
import ca.uhn.fhir.jpa.model.config.PartitionSettings;
import ca.uhn.fhir.jpa.model.config.SubscriptionSettings;
import ca.uhn.fhir.jpa.model.dialect.HapiFhirH2Dialect;
import ca.uhn.fhir.jpa.provider.JpaSystemProvider;
import ca.uhn.fhir.jpa.search.DatabaseBackedPagingProvider;
import ca.uhn.fhir.jpa.subscription.channel.config.SubscriptionChannelConfig;
import ca.uhn.fhir.rest.server.provider.ResourceProviderFactory;
import ca.uhn.fhir.rest.server.util.ISearchParamRegistry;
import jakarta.persistence.EntityManagerFactory;
import java.util.Properties;
import javax.sql.DataSource;
import org.apache.commons.dbcp2.BasicDataSource;
import org.springframework.beans.factory.config.ConfigurableListableBeanFactory;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Import;
import org.springframework.context.annotation.Primary;
import org.springframework.orm.jpa.JpaTransactionManager;
import org.springframework.orm.jpa.LocalContainerEntityManagerFactoryBean;

/** HAPI FHIR's JPA storage over an H2 database in memory, beside the parts of a {@link Release}. */
@Configuration
@Import({
  HapiJpaConfig.class,
  JpaBatch2Config.class,
  Batch2JobsConfig.class,
  SubscriptionChannelConfig.class,
  ThreadPoolFactoryConfig.class
})
class Storage {

  @Bean
  JpaStorageSettings storageSettings(Temper temper) {
    JpaStorageSettings settings = new JpaStorageSettings();
    settings.setHibernateSearchIndexFullText(false);
    settings.setHibernateSearchIndexSearchParams(false);
    if (temper == Temper.STRICT) {
      settings.setResourceServerIdStrategy(JpaStorageSettings.IdStrategyEnum.UUID);
      settings.setResourceClientIdStrategy(JpaStorageSettings.ClientIdStrategyEnum.NOT_ALLOWED);
    }
    return settings;
  }

  @Bean
  PartitionSettings partitionSettings() {
    return new PartitionSettings();
  }

  @Bean
  SubscriptionSettings subscriptionSettings() {
    return new SubscriptionSettings();
  }

  @Bean
  DataSource dataSource() {
    BasicDataSource source = new BasicDataSource();
    source.setUrl("jdbc:h2:mem:records;DB_CLOSE_DELAY=-1");
    source.setMaxTotal(20);
    return source;
  }

  @Bean
  @Primary
  LocalContainerEntityManagerFactoryBean entityManagerFactory(
      ConfigurableListableBeanFactory beans,
      FhirContext fhir,
      JpaStorageSettings settings,
      DataSource source) {
    LocalContainerEntityManagerFactoryBean factory =
        HapiEntityManagerFactoryUtil.newEntityManagerFactory(beans, fhir, settings);
    factory.setPersistenceUnitName("records");
    factory.setDataSource(source);
    factory.setJpaProperties(hibernate());
    return factory;
  }

  private static Properties hibernate() {
    Properties properties = new Properties();
    properties.setProperty("hibernate.dialect", HapiFhirH2Dialect.class.getName());
    // The database is always empty: creating is quicker than comparing first.
    properties.setProperty("hibernate.hbm2ddl.auto", "create");
    properties.setProperty("hibernate.search.enabled", "false");
    properties.setProperty("hibernate.cache.use_query_cache", "false");
    properties.setProperty("hibernate.cache.use_second_level_cache", "false");
    return properties;
  }

  @Bean
  @Primary
  JpaTransactionManager transactionManager(EntityManagerFactory factory) {
    return new JpaTransactionManager(factory);
  }

  @Bean
  FhirDoor fhirDoor(
      Temper temper,
      FhirContext fhir,
      ResourceProviderFactory resources,
      JpaSystemProvider<?, ?> systemProvider,
      DatabaseBackedPagingProvider paging,
      IInterceptorService interceptors,
      IFhirSystemDao<?, ?> system,
      JpaStorageSettings settings,
      ISearchParamRegistry searchParameters,
      IValidationSupport definitions) {
    FhirDoor door = new FhirDoor(fhir, resources, systemProvider, paging, interceptors);
    door.describeItself(system, settings, searchParameters, definitions);
    if (temper == Temper.STRICT) {
      door.validateWrites(definitions);
    }
    return door;
  }
}
