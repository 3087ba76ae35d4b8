#include "solver/factorisation.h"
#include <Eigen/SparseCholesky>
namespace tubewright {
struct Factorisation::Impl { Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower> ldlt; Eigen::VectorXd ratios; bool ok; };
bool supernodal_available() { return false; }
Factorisation::Factorisation(const SparseMatrix& K, const std::vector<int>&, FactorisationMethod) : impl_(new Impl) {
  auto n=K.cols(); impl_->ratios=Eigen::VectorXd::Zero(n); if(n==0){impl_->ok=true;return;}
  impl_->ldlt.compute(K); impl_->ok = impl_->ldlt.info()==Eigen::Success;
  if(impl_->ok){ Eigen::VectorXd D=impl_->ldlt.vectorD(); D = impl_->ldlt.permutationPinv()*D; impl_->ok = D.allFinite() && D.minCoeff()>0; for(Eigen::Index i=0;i<n;++i) impl_->ratios[i]=D[i]/K.coeff(i,i);} }
Factorisation::~Factorisation()=default; Factorisation::Factorisation(Factorisation&&) noexcept=default; Factorisation& Factorisation::operator=(Factorisation&&) noexcept=default;
bool Factorisation::positive_definite() const {return impl_->ok;}
const Eigen::VectorXd& Factorisation::pivot_ratios() const {return impl_->ratios;}
Eigen::MatrixXd Factorisation::solve(const Eigen::MatrixXd& F) const { if(F.rows()==0) return F; return impl_->ldlt.solve(F);}
FactorisationMethod Factorisation::method() const {return FactorisationMethod::simplicial;}
}
