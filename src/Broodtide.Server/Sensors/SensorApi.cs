using Broodtide.Domain;
using Broodtide.Server.People;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Server.Sensors;

/// <summary>What phones see and say of sensors. They receive hours and alarms; single readings stay here.</summary>
internal static class SensorApi
{
    public static void MapSensors(this IEndpointRouteBuilder app, SensorRoom room, IClock clock)
    {
        var group = app.MapGroup("/" + SensorsSeen.Path);
        group
            .MapGet(
                "",
                async (HttpContext context, CancellationToken cancel) =>
                {
                    context.Response.Headers.CacheControl = "no-store";
                    return Answers.Ok(
                        await room.SeenAsync(clock.GetCurrentInstant(), cancel),
                        SensorsJson.Default.SensorsSeen
                    );
                }
            )
            .RequireAuthorization(Policies.Reader);
        group
            .MapPost(
                "/place",
                async (HttpContext context, CancellationToken cancel) =>
                    await context.Request.ReadAsync(SensorsJson.Default.PlaceAsked)
                        is { Sensor: { } name } asked
                    && SensorId.Find(name) is { } sensor
                        ? await DoneAsync(
                            room.Store.PlaceAsync(
                                sensor,
                                new(
                                    RawReading.Cut(clock.GetCurrentInstant()),
                                    asked.Vessel is { } vessel ? new VesselId(vessel) : null
                                ),
                                cancel
                            ),
                            room
                        )
                        : Answers.BodyWrong
            )
            .RequireAuthorization(Policies.Keeper);
        group
            .MapPost(
                "/limits",
                async (HttpContext context, CancellationToken cancel) =>
                {
                    if (
                        await context.Request.ReadAsync(SensorsJson.Default.LimitsAsked)
                            is not { Sensor: { } name } asked
                        || SensorId.Find(name) is not { } sensor
                    )
                    {
                        return Answers.BodyWrong;
                    }

                    if (room.Intake.AboutOf(sensor) is not { } about)
                    {
                        return Answers.No(StatusCodes.Status404NotFound, "sensor-unknown");
                    }

                    return
                        asked.Limits is { } limits
                        && SensorLimitsRule.WrongOf(limits, about.Unit) is { } wrong
                        ? Answers.No(StatusCodes.Status400BadRequest, wrong.Code)
                        : await DoneAsync(room.Store.LimitAsync(sensor, asked.Limits, cancel), room);
                }
            )
            .RequireAuthorization(Policies.Keeper);
        group
            .MapPost(
                "/acknowledge",
                async (HttpContext context, CancellationToken cancel) =>
                    await context.Request.ReadAsync(SensorsJson.Default.AcknowledgeAsked) is { } asked
                    && context.Visitor() is { } visitor
                        ? await DoneAsync(
                            room.AcknowledgeAsync(
                                asked.Alarm,
                                visitor.Person.Value,
                                clock.GetCurrentInstant(),
                                cancel
                            ),
                            room
                        )
                        : Answers.BodyWrong
            )
            .RequireAuthorization(Policies.Helper);
    }

    private static async Task<IResult> DoneAsync(ValueTask<bool> work, SensorRoom room)
    {
        if (!await work)
        {
            return Answers.No(StatusCodes.Status404NotFound, "sensor-unknown");
        }

        room.Changed();
        return Results.NoContent();
    }
}
