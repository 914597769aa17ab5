using Lastoff.Storing;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace Lastoff.Serving;

/// <summary>Metrics and traces over OpenTelemetry's protocol, to where the usual <c>OTEL_…</c> variables say; none when they say nothing.</summary>
internal static class Observing
{
    public static void AddObserving(this IServiceCollection services)
    {
        var metrics = IsWanted("METRICS");
        var traces = IsWanted("TRACES");
        if (!metrics && !traces)
        {
            return;
        }

        var telemetry = services.AddOpenTelemetry().ConfigureResource(resource => resource.AddService("lastoff").AddEnvironmentVariableDetector());
        if (metrics)
        {
            telemetry.WithMetrics(m => m.AddMeter(Telemetry.Name, "Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel", "Npgsql").AddOtlpExporter());
        }

        if (traces)
        {
            telemetry.WithTracing(t => t.AddSource(Telemetry.Name, "Npgsql").AddAspNetCoreInstrumentation().AddOtlpExporter());
        }
    }

    private static bool IsWanted(string signal) =>
        Environment.GetEnvironmentVariable("OTEL_SDK_DISABLED") != "true"
        && Environment.GetEnvironmentVariable($"OTEL_{signal}_EXPORTER") != "none"
        && (Environment.GetEnvironmentVariable("OTEL_EXPORTER_OTLP_ENDPOINT") ?? Environment.GetEnvironmentVariable($"OTEL_EXPORTER_OTLP_{signal}_ENDPOINT")) is { Length: > 0 };
}
