using Broodtide.Storage.Households;
using Broodtide.Workbench.People;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using NodaTime;

namespace Broodtide.Server.People;

/// <summary>What each person may ask of the own sign-ins.</summary>
internal static class MeApi
{
    public static void MapMe(this IEndpointRouteBuilder app)
    {
        var mine = app.MapGroup("").RequireAuthorization(Policies.Reader);
        mine.MapGet(
            "/" + PeopleAddresses.MySessions,
            (HttpContext context, HouseSessions sessions) =>
                Answers.Ok(
                    context.Visitor() is { } me
                        ? [.. sessions.Held(me.Person).Select(it => it.ToSeen(context.SessionId()))]
                        : (IReadOnlyList<SessionSeen>)[],
                    PeopleJson.Default.IReadOnlyListSessionSeen
                )
        );
        mine.MapPost(
            "/" + PeopleAddresses.MySessions + "/{id:guid}/end",
            (Guid id, HttpContext context, HouseSessions sessions, IClock clock) =>
                sessions.Revoke(id, context.Visitor()!.Person, clock.GetCurrentInstant())
                    ? Results.NoContent()
                    : Answers.No(StatusCodes.Status404NotFound, "no-such-session")
        );
        mine.MapPost("/" + PeopleAddresses.MyPassphrase, ChangePassphrase)
            .RequireRateLimiting(Tries.ByAddress);
        mine.MapPost("/" + PeopleAddresses.MyWays, KeepWays);
        mine.MapPost(
            "/" + PeopleAddresses.SignOut,
            async (HttpContext context) =>
            {
                await context.SignOutAsync(CookieAuthenticationDefaults.AuthenticationScheme);
                return Results.NoContent();
            }
        );
    }

    public static SessionSeen ToSeen(this Session session, Guid? asking) =>
        new(
            session.Id,
            session.Device,
            session.Made.ToUnixTimeMilliseconds(),
            session.Seen.ToUnixTimeMilliseconds(),
            session.Replica?.Value.ToString("N")[^8..],
            session.Id == asking
        );

    private static async Task<IResult> KeepWays(HttpContext context, HousePeople people, HouseWays ways)
    {
        if (
            await context.Request.ReadAsync(PeopleJson.Default.WaysSeen) is not { } asked
            || !asked.IsPlain()
            // Whoever is at the machine is nobody whose ways could be kept.
            || people.Find(context.Visitor()!.Person) is null
        )
        {
            return Answers.BodyWrong;
        }

        ways.Keep(context.Visitor()!.Person, asked);
        return Results.NoContent();
    }

    private static async Task<IResult> ChangePassphrase(
        HttpContext context,
        Tries tries,
        HousePeople people,
        HouseSessions sessions,
        Passphrases passphrases,
        IClock clock
    )
    {
        if (await context.Request.ReadAsync(PeopleJson.Default.PassphraseAsked) is not { } asked)
        {
            return Answers.BodyWrong;
        }

        var me = context.Visitor()!;
        if (!tries.MayTry(me.Name))
        {
            return Answers.No(
                StatusCodes.Status429TooManyRequests,
                "too-many-tries",
                Tries.NameWaitSeconds / 60
            );
        }

        // Whoever finds a phone lying about does not change the passphrase with it.
        if (passphrases.Check(people.Find(me.Person), asked.Old) is Checked.Wrong)
        {
            return Answers.No(StatusCodes.Status403Forbidden, "passphrase-wrong");
        }

        if (PassphraseRules.Against(asked.New, me.Name) is { } remark)
        {
            return Answers.No(remark);
        }

        people.SetPassphrase(me.Person, passphrases.Hash(asked.New));
        sessions.RevokeAll(me.Person, context.SessionId(), clock.GetCurrentInstant());
        return Results.NoContent();
    }
}
