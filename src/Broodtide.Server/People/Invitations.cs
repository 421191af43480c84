using Broodtide.Storage.Households;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Server.People;

/// <summary>How invitations are made, the same way by the owner's phone and on the server's command line.</summary>
internal static class Invitations
{
    /// <summary>How long an invitation can be used; decided.</summary>
    public static readonly Duration Lasts = Duration.FromDays(7);

    public static InvitationMade Make(this HouseInvitations invitations, Role role, Person? of, Instant now)
    {
        var code = Codes.New();
        var invitation = new Invitation(Guid.CreateVersion7(), role, of?.Id, now, now + Lasts);
        invitations.Add(invitation, Codes.HashOf(code));
        return new InvitationMade(invitation.ToSeen(of), code);
    }

    public static InvitationSeen ToSeen(this Invitation invitation, HousePeople people) =>
        invitation.ToSeen(invitation.For is { } person ? people.Find(person) : null);

    private static InvitationSeen ToSeen(this Invitation invitation, Person? of) =>
        new(invitation.Id, invitation.Role.Code(), of?.Name, invitation.Expires.ToUnixTimeMilliseconds());
}
