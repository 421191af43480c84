using Broodtide.Storage.Households;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using NodaTime;

namespace Broodtide.Server.People;

/// <summary>
/// What can be asked before anybody is signed in: who is in, and the three ways of coming in. Each way takes a secret,
/// so tries are counted.
/// </summary>
internal static class EntranceApi
{
    public static void MapEntrance(this IEndpointRouteBuilder app, bool allAreIn)
    {
        app.MapGet(
                "/" + PeopleAddresses.Door,
                (HttpContext context, HousePeople people, HouseWays ways) =>
                    Answers.Ok(
                        new DoorSeen(
                            allAreIn || people.HasOwner(),
                            allAreIn,
                            Seen(context.Visitor()),
                            context.Visitor() is { } me ? ways.Of(me.Person) : null
                        ),
                        PeopleJson.Default.DoorSeen
                    )
            )
            .AllowAnonymous();
        app.MapGet(
                "/" + PeopleAddresses.Token,
                (HttpContext context, IAntiforgery antiforgery) =>
                    Answers.Ok(
                        new TokenSeen(antiforgery.GetAndStoreTokens(context).RequestToken ?? ""),
                        PeopleJson.Default.TokenSeen
                    )
            )
            .AllowAnonymous();
        var ways = app.MapGroup("").AllowAnonymous().RequireRateLimiting(Tries.ByAddress);
        ways.MapPost("/" + PeopleAddresses.Invitation, Look);
        ways.MapPost("/" + PeopleAddresses.First, First).AddEndpointFilter(NobodyIsIn);
        ways.MapPost("/" + PeopleAddresses.SignIn, SignIn).AddEndpointFilter(NobodyIsIn);
        ways.MapPost("/" + PeopleAddresses.Join, Join).AddEndpointFilter(NobodyIsIn);
    }

    // A session is one person's for good: who is in on this device goes out first.
    private static ValueTask<object?> NobodyIsIn(
        EndpointFilterInvocationContext call,
        EndpointFilterDelegate next
    ) =>
        call.HttpContext.SessionId() is null
            ? next(call)
            : ValueTask.FromResult<object?>(Answers.No(StatusCodes.Status409Conflict, "somebody-is-in"));

    private static async Task<IResult> First(
        HttpContext context,
        FirstStart start,
        HousePeople people,
        Passphrases passphrases,
        IClock clock
    )
    {
        if (await context.Request.ReadAsync(PeopleJson.Default.FirstAsked) is not { } asked)
        {
            return Answers.BodyWrong;
        }

        if (!start.Opens(asked.Code))
        {
            return CodeWrong;
        }

        if (PersonName.Read(asked.Name) is not { } name)
        {
            return NameWrong;
        }

        if (PassphraseRules.Against(asked.Passphrase, name) is { } remark)
        {
            return Answers.No(remark);
        }

        var owner = new Person(
            new PersonId(Guid.CreateVersion7()),
            name,
            Role.Owner,
            passphrases.Hash(asked.Passphrase),
            clock.GetCurrentInstant(),
            null
        );
        return people.AddFirstOwner(owner) ? await LetIn(context, owner) : CodeWrong;
    }

    private static async Task<IResult> SignIn(
        HttpContext context,
        Tries tries,
        HousePeople people,
        Passphrases passphrases
    )
    {
        if (await context.Request.ReadAsync(PeopleJson.Default.SignInAsked) is not { } asked)
        {
            return Answers.BodyWrong;
        }

        if (!tries.MayTry(asked.Name))
        {
            return Answers.No(
                StatusCodes.Status429TooManyRequests,
                "too-many-tries",
                Tries.NameWaitSeconds / 60
            );
        }

        var person = people.Named(asked.Name);
        var typed = asked.Passphrase.Length <= 2 * PassphraseRules.MostCharacters ? asked.Passphrase : "";
        switch (passphrases.Check(person, typed))
        {
            case Checked.Wrong:
                return Answers.No(StatusCodes.Status401Unauthorized, "sign-in-wrong");
            case Checked.RightButWeak:
                people.SetPassphrase(person!.Id, passphrases.Hash(typed));
                break;
        }

        return await LetIn(context, person!);
    }

    private static async Task<IResult> Look(
        HttpContext context,
        HouseInvitations invitations,
        HousePeople people,
        IClock clock
    ) =>
        await context.Request.ReadAsync(PeopleJson.Default.CodeAsked) is not { } asked ? Answers.BodyWrong
        : invitations.Find(Codes.HashOf(asked.Code), clock.GetCurrentInstant()) is { } invitation
            ? Answers.Ok(invitation.ToSeen(people), PeopleJson.Default.InvitationSeen)
        : CodeWrong;

    private static async Task<IResult> Join(
        HttpContext context,
        HouseInvitations invitations,
        HousePeople people,
        Passphrases passphrases,
        IClock clock
    )
    {
        if (await context.Request.ReadAsync(PeopleJson.Default.JoinAsked) is not { } asked)
        {
            return Answers.BodyWrong;
        }

        var hash = Codes.HashOf(asked.Code);
        var now = clock.GetCurrentInstant();
        if (invitations.Find(hash, now) is not { } invitation)
        {
            return CodeWrong;
        }

        var known = invitation.For is { } person ? people.Find(person)?.Name : null;
        if ((known ?? PersonName.Read(asked.Name)) is not { } name)
        {
            return NameWrong;
        }

        if (PassphraseRules.Against(asked.Passphrase, name) is { } remark)
        {
            return Answers.No(remark);
        }

        var (how, joined) = invitations.Accept(
            hash,
            new Person(
                new PersonId(Guid.CreateVersion7()),
                name,
                invitation.Role,
                passphrases.Hash(asked.Passphrase),
                now,
                null
            ),
            now
        );
        return how switch
        {
            Acceptance.Accepted => await LetIn(context, joined!),
            Acceptance.NameTaken => Answers.No(StatusCodes.Status409Conflict, "name-taken"),
            _ => CodeWrong,
        };
    }

    private static async Task<IResult> LetIn(HttpContext context, Person person)
    {
        var visitor = new Visitor(person.Id, person.Name, person.Role);
        await context.SignInAsync(
            CookieAuthenticationDefaults.AuthenticationScheme,
            visitor.ToPrincipal(CookieAuthenticationDefaults.AuthenticationScheme),
            new AuthenticationProperties { IsPersistent = true }
        );
        return Answers.Ok(Seen(visitor)!, PeopleJson.Default.PersonSeen);
    }

    public static PersonSeen? Seen(Visitor? visitor) =>
        visitor is null ? null : new(visitor.Person.Value, visitor.Name, visitor.Role.Code());

    private static IResult CodeWrong => Answers.No(StatusCodes.Status403Forbidden, "code-wrong");

    private static IResult NameWrong => Answers.No(StatusCodes.Status400BadRequest, "name-wrong");
}
