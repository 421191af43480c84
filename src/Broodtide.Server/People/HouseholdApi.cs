using Broodtide.Storage.Households;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Server.People;

/// <summary>What the owner may do: see everybody, ask in, let out, change a role, end a session.</summary>
internal static class HouseholdApi
{
    public static void MapHousehold(this IEndpointRouteBuilder app)
    {
        var owners = app.MapGroup("").RequireAuthorization(Policies.Owner);
        owners.MapGet(
            "/" + PeopleAddresses.Root,
            (
                HttpContext context,
                HousePeople people,
                HouseSessions sessions,
                HouseInvitations invitations,
                IClock clock
            ) =>
            {
                var held = sessions.Held().ToLookup(session => session.Person);
                return Answers.Ok(
                    new HouseSeen(
                        [
                            .. people
                                .All()
                                .Select(person => new PersonOfHouse(
                                    person.Id.Value,
                                    person.Name,
                                    person.Role.Code(),
                                    person.Removed is not null,
                                    [.. held[person.Id].Select(it => it.ToSeen(context.SessionId()))]
                                )),
                        ],
                        [
                            .. invitations
                                .Waiting(clock.GetCurrentInstant())
                                .Select(invitation => invitation.ToSeen(people)),
                        ]
                    ),
                    PeopleJson.Default.HouseSeen
                );
            }
        );
        owners.MapPost("/" + PeopleAddresses.Invitations, Invite);
        owners.MapPost(
            "/" + PeopleAddresses.Invitations + "/{id:guid}/withdraw",
            (Guid id, HouseInvitations invitations, IClock clock) =>
                invitations.Withdraw(id, clock.GetCurrentInstant())
                    ? Results.NoContent()
                    : Answers.No(StatusCodes.Status404NotFound, "no-such-invitation")
        );
        owners.MapPost(
            "/" + PeopleAddresses.Sessions + "/{id:guid}/end",
            (Guid id, HouseSessions sessions, IClock clock) =>
                sessions.Revoke(id, null, clock.GetCurrentInstant())
                    ? Results.NoContent()
                    : Answers.No(StatusCodes.Status404NotFound, "no-such-session")
        );
        owners.MapPost(
            "/" + PeopleAddresses.Root + "/{id:guid}/role",
            async (Guid id, HttpContext context, HousePeople people) =>
                await context.Request.ReadAsync(PeopleJson.Default.RoleAsked) is { } asked
                && RoleCodes.Parse(asked.Role) is { } role
                    ? Told(people.SetRole(new PersonId(id), role))
                    : Answers.BodyWrong
        );
        owners.MapPost(
            "/" + PeopleAddresses.Root + "/{id:guid}/remove",
            (Guid id, HousePeople people, IClock clock) =>
                Told(people.Remove(new PersonId(id), clock.GetCurrentInstant()))
        );
    }

    private static async Task<IResult> Invite(
        HttpContext context,
        HousePeople people,
        HouseInvitations invitations,
        IClock clock
    )
    {
        if (await context.Request.ReadAsync(PeopleJson.Default.InviteAsked) is not { } asked)
        {
            return Answers.BodyWrong;
        }

        Person? of = null;
        if (asked.Person is { } id)
        {
            of = people.Find(new PersonId(id));
            if (of is null)
            {
                return Told(PersonChange.Unknown);
            }
        }

        // Who owns the house is decided among people who are in it, not by a code that travels.
        return
            (RoleCodes.Parse(asked.Role) ?? (of is { Removed: null } ? of.Role : null)) is not { } role
            || (role is Role.Owner && of is null or { Removed: not null })
            ? Answers.BodyWrong
            : Answers.Ok(
                invitations.Make(role, of, clock.GetCurrentInstant()),
                PeopleJson.Default.InvitationMade
            );
    }

    private static IResult Told(PersonChange change) =>
        change switch
        {
            PersonChange.Done => Results.NoContent(),
            PersonChange.LastOwner => Answers.No(StatusCodes.Status409Conflict, "last-owner"),
            _ => Answers.No(StatusCodes.Status404NotFound, "no-such-person"),
        };
}
