namespace Broodtide.Workbench.People;

/// <summary>What a phone sends to make the first owner.</summary>
/// <param name="Code">The code that the server printed.</param>
/// <param name="Name">What the owner signs with.</param>
/// <param name="Passphrase">As typed.</param>
public sealed record FirstAsked(string Code, string Name, string Passphrase);

/// <summary>What a phone sends to sign in.</summary>
/// <param name="Name">Who.</param>
/// <param name="Passphrase">As typed.</param>
public sealed record SignInAsked(string Name, string Passphrase);

/// <summary>What a phone sends to look at an invitation.</summary>
/// <param name="Code">The code of the invitation.</param>
public sealed record CodeAsked(string Code);

/// <summary>What a phone sends to use an invitation.</summary>
/// <param name="Code">The code of the invitation.</param>
/// <param name="Name">What the newcomer signs with; none where the invitation is for somebody who has a name.</param>
/// <param name="Passphrase">As typed.</param>
public sealed record JoinAsked(string Code, string? Name, string Passphrase);

/// <summary>What the owner sends to ask somebody in.</summary>
/// <param name="Role">The role of somebody new, or of one who was let out; none for a new passphrase alone.</param>
/// <param name="Person">The person it is for; none for somebody new.</param>
public sealed record InviteAsked(string? Role, Guid? Person);

/// <summary>What the owner sends to give a person another role.</summary>
/// <param name="Role">Its code.</param>
public sealed record RoleAsked(string Role);

/// <summary>What a person sends to change the passphrase.</summary>
/// <param name="Old">The one that holds.</param>
/// <param name="New">The one that shall hold.</param>
public sealed record PassphraseAsked(string Old, string New);
