using System.Buffers.Text;
using System.Security.Claims;
using System.Security.Cryptography;
using Broodtide.Domain;
using Broodtide.Storage.Households;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using NodaTime;

namespace Broodtide.Server.People;

/// <summary>
/// Keeps on the server who is signed in. The phone's cookie holds nothing but a random key; person and role are asked
/// of the house at every request, so that what the owner changes holds at once.
/// </summary>
internal sealed class SessionStore(HouseSessions sessions, IClock clock) : ITicketStore
{
    private const int KeyBytes = 32;

    // A session that nobody used for so long is over.
    private static readonly Duration Unused = Duration.FromDays(90);

    // Being used is noted to the minute, not at every request.
    private static readonly Duration Note = Duration.FromMinutes(1);

    /// <summary>As long as browsers keep a cookie at most; the session may end sooner.</summary>
    public static readonly Duration Longest = Duration.FromDays(400);

    public Task<string> StoreAsync(AuthenticationTicket ticket) =>
        throw new NotSupportedException("A session is begun by a request.");

    public Task<string> StoreAsync(AuthenticationTicket ticket, CancellationToken cancellationToken) =>
        StoreAsync(ticket);

    public Task<string> StoreAsync(
        AuthenticationTicket ticket,
        HttpContext httpContext,
        CancellationToken cancellationToken
    )
    {
        var visitor =
            ticket.Principal.ToVisitor()
            ?? throw new InvalidOperationException("Nobody to begin a session for.");
        var key = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(KeyBytes));
        var now = clock.GetCurrentInstant();
        sessions.Begin(
            new Session(
                Guid.CreateVersion7(),
                visitor.Person,
                DeviceWords.Of(httpContext.Request.Headers.UserAgent),
                now,
                now,
                null,
                null
            ),
            SecretHash.Of(key)
        );
        return Task.FromResult(key);
    }

    public Task<AuthenticationTicket?> RetrieveAsync(string key) => Task.FromResult(Find(key, null));

    public Task<AuthenticationTicket?> RetrieveAsync(
        string key,
        HttpContext httpContext,
        CancellationToken cancellationToken
    ) => Task.FromResult(Find(key, ReplicaOf(httpContext.Request)));

    public Task RemoveAsync(string key)
    {
        if (sessions.Find(SecretHash.Of(key)) is { } found)
        {
            sessions.Revoke(found.Session.Id, null, clock.GetCurrentInstant());
        }

        return Task.CompletedTask;
    }

    /// <summary>A session is one person's for good; who signs in as another gets another.</summary>
    public Task RenewAsync(string key, AuthenticationTicket ticket) =>
        sessions.Find(SecretHash.Of(key)) is { } found
        && found.Person.Id == ticket.Principal.ToVisitor()?.Person
            ? Task.CompletedTask
            : throw new InvalidOperationException("The session is somebody else's.");

    private AuthenticationTicket? Find(string key, ReplicaId? replica)
    {
        var now = clock.GetCurrentInstant();
        if (sessions.Find(SecretHash.Of(key)) is not var (session, person) || now - session.Seen > Unused)
        {
            return null;
        }

        if (now - session.Seen > Note || (replica is not null && replica != session.Replica))
        {
            sessions.Note(session.Id, now, replica);
        }

        var principal = new Visitor(person.Id, person.Name, person.Role).ToPrincipal(
            CookieAuthenticationDefaults.AuthenticationScheme
        );
        ((ClaimsIdentity)principal.Identity!).AddClaim(new(SessionClaim, session.Id.ToString()));
        return new AuthenticationTicket(
            principal,
            new AuthenticationProperties
            {
                IsPersistent = true,
                IssuedUtc = session.Made.ToDateTimeOffset(),
                ExpiresUtc = (session.Made + Longest).ToDateTimeOffset(),
            },
            CookieAuthenticationDefaults.AuthenticationScheme
        );
    }

    /// <summary>The claim that says which session it is.</summary>
    public const string SessionClaim = "session";

    private static ReplicaId? ReplicaOf(HttpRequest request) =>
        Guid.TryParse(request.Headers[PeopleAddresses.ReplicaHeader], out var replica)
            ? new ReplicaId(replica)
            : null;
}
