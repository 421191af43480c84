using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Broodtide.Phone.Reminding;
using Broodtide.Server.People;
using Broodtide.Server.Site;
using Broodtide.Storage.Households;
using Broodtide.Workbench.Reminders;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Server.Calendar;

/// <summary>
/// A person's calendar: an address that only who was given it can guess, without cookies, for programs that ask now and
/// then. Its person makes it, renews it and switches it off. What it answers names nobody.
/// </summary>
internal static class CalendarApi
{
    private const string Root = PhoneSite.ApiPath + "/calendar";

    /// <summary>Bits of a secret: nobody guesses them.</summary>
    public const int SecretBits = 256;

    private const int LongestWish = 1024;
    private const int LongestZone = 64;

    /// <summary>Adds the endpoints. Whoever is signed in has an address of his own, whatever the role.</summary>
    public static void MapCalendar(
        this IEndpointRouteBuilder app,
        CalendarFeed feed,
        HouseCalendars calendars,
        IClock clock
    )
    {
        app.MapMethods(
                Root + "/{secret}.ics",
                [HttpMethods.Get, HttpMethods.Head],
                (string secret, HttpContext context) => AnswerAsync(secret, feed, calendars, context)
            )
            .AllowAnonymous();
        var own = app.MapGroup(Root).RequireAuthorization(Policies.Reader);
        own.MapGet("", (HttpContext context) => Own(context, calendars, null));
        own.MapPost(
            "",
            async (HttpContext context) =>
            {
                if (context.Visitor() is not { } visitor)
                {
                    return Results.StatusCode(StatusCodes.Status401Unauthorized);
                }

                if (await WishAsync(context.Request) is not { } wish)
                {
                    return Results.StatusCode(StatusCodes.Status400BadRequest);
                }

                var secret = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(SecretBits / 8));
                calendars.Put(
                    new(visitor.Person, clock.GetCurrentInstant(), wish.Zone, wish.Manner),
                    SecretHash.Of(secret)
                );
                feed.Forget(visitor.Person);
                return Own(context, calendars, $"{Root[1..]}/{secret}.ics");
            }
        );
        own.MapDelete(
            "",
            (HttpContext context) =>
            {
                if (context.Visitor() is { } visitor)
                {
                    calendars.Remove(visitor.Person);
                    feed.Forget(visitor.Person);
                }

                return Own(context, calendars, null);
            }
        );
    }

    private static async Task AnswerAsync(
        string secret,
        CalendarFeed feed,
        HouseCalendars calendars,
        HttpContext context
    )
    {
        var answer = context.Response;
        answer.Headers.CacheControl = "no-store";
        if (!feed.MayAsk(context.Connection.RemoteIpAddress))
        {
            answer.StatusCode = StatusCodes.Status429TooManyRequests;
            answer.Headers.RetryAfter = CalendarFeed.WaitSeconds;
            return;
        }

        // Found by its hash: how long that takes says nothing of the real one.
        if (
            secret.Length != Base64Url.GetEncodedLength(SecretBits / 8)
            || calendars.Find(SecretHash.Of(secret)) is not { } address
        )
        {
            answer.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        var text = Encoding.UTF8.GetBytes(await feed.TextAsync(address, context.RequestAborted));
        answer.ContentType = CalendarText.MediaType + "; charset=utf-8";
        answer.ContentLength = text.Length;
        if (!HttpMethods.IsHead(context.Request.Method))
        {
            await answer.Body.WriteAsync(text, context.RequestAborted);
        }
    }

    private static IResult Own(HttpContext context, HouseCalendars calendars, string? path)
    {
        if (context.Visitor() is not { } visitor)
        {
            return Results.StatusCode(StatusCodes.Status401Unauthorized);
        }

        context.Response.Headers.CacheControl = "no-store";
        var made = calendars.Of(visitor.Person)?.Made;
        return Results.Json(
            new CalendarStanding(made is { } at ? InstantPattern.ExtendedIso.Format(at) : null, path),
            CalendarJson.Default.CalendarStanding
        );
    }

    // JSON only, so that a page from elsewhere cannot send one unasked.
    private static async Task<CalendarWish?> WishAsync(HttpRequest request)
    {
        if (!request.HasJsonContentType() || request.ContentLength is null or > LongestWish)
        {
            return null;
        }

        try
        {
            return
                await JsonSerializer.DeserializeAsync(
                    request.Body,
                    CalendarJson.Default.CalendarWish,
                    request.HttpContext.RequestAborted
                )
                    is { Zone.Length: > 0 and <= LongestZone, Manner.Length: <= Manner.Longest } wish
                && DateTimeZoneProviders.Tzdb.GetZoneOrNull(wish.Zone) is not null
                ? wish
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
